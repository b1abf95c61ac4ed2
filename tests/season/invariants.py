"""What must hold at every step of a season, each with the sentence that says where it does not."""

from collections.abc import Callable, Iterator

from builds.planner.check import faults
from tests.season.looks import Look

Holds = Callable[[Look], Iterator[str]]


def one_verdict(look: Look) -> Iterator[str]:
    """Key board, verdict and sheet say the same of a car."""
    for car, places in look.told.items():
        for say, name in (("verdict", "verdict"), ("reasons", "number of reasons")):
            said = {place: getattr(told, say) for place, told in places.items() if getattr(told, say) is not None}
            if len(set(said.values())) > 1:
                yield f"{car} has more than one {name}: {said}"


def one_outcome(look: Look) -> Iterator[str]:
    """Today, plan and sheet say the same of a car for its event, and of how it stands on the day."""
    for car, places in look.told.items():
        for say in ("makes_it", "outlook", "on_the_day"):
            by_event: dict[str, dict[str, object]] = {}
            for place, told in places.items():
                if getattr(told, say) is not None:
                    by_event.setdefault(place.partition(", ")[2], {})[place] = getattr(told, say)
            for event, said in by_event.items():
                if len(set(said.values())) > 1:
                    yield f"{car} makes {event} or not, {said}"


def nothing_planned_in_pieces(look: Look) -> Iterator[str]:
    """Nobody is to measure or drive a car between its strip and its wheels."""
    if look.wall is None:
        return
    cars = {job.id: job.vehicle for job in look.wall.problem.jobs}
    wanting = [place for place in look.wall.answer.placed if place.id in look.wall.on_wheels]
    for place in wanting:
        for apart in look.wall.pieces:
            there = cars[place.id] == apart.car and place.id not in apart.ends
            if there and place.start < apart.until and place.end > apart.since:
                yield f"“{look.wall.on_wheels[place.id]}” is planned while its car is in pieces"


def nothing_done_in_pieces(look: Look) -> Iterator[str]:
    yield from (f"{what} while the car is in pieces" for what in look.done_stripped)


def fit_is_whole(look: Look) -> Iterator[str]:
    """No car is fit with open safety work, with an open hold point, in pieces or run since its wheels were torqued."""
    for car, whole in look.whole.items():
        if whole.state != "fit":
            continue
        yield from (f"{car} is fit with the safety job “{title}” open" for title in whole.open_safety)
        yield from (f"{car} is fit with a hold point open: {what}" for what in whole.open_points)
        yield from (f"{car} is fit and ran in “{what}” since its wheels were torqued" for what in whole.ran)
        yield from (f"{car} is fit and in pieces until “{title}”" for title in whole.in_pieces)


def plan_is_sound(look: Look) -> Iterator[str]:
    if look.wall is not None:
        yield from faults(look.wall.problem, look.wall.answer)


def moves_have_a_cause(look: Look) -> Iterator[str]:
    """Where nothing was written and nobody was in, the work stays on its evenings; what moved says why."""
    yield from (f"{what} moved, and nothing says why" for what in look.unexplained)
    if not look.caused:
        yield from (f"{title} moved, and nothing was written and nobody was in" for title in look.moved)


INVARIANTS: tuple[Holds, ...] = (
    one_verdict,
    one_outcome,
    nothing_planned_in_pieces,
    nothing_done_in_pieces,
    fit_is_whole,
    plan_is_sound,
    moves_have_a_cause,
)


def broken(look: Look) -> list[str]:
    return [f"{look.at:%a %d %b %H:%M}: {sentence}" for holds in INVARIANTS for sentence in holds(look)]
