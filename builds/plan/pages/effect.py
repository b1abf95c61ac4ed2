"""What a job does to the plan, in words."""

from builds.plan.engine.ids import id_of
from builds.plan.facts.effect import Effect


def effect_words(effect: Effect) -> str:
    """`Heron is then ready Thu 20:30 instead of Thu 19:00, still in time.`"""
    others = (_other(car, effect) for car in effect.entries if car != effect.job.vehicle_id)
    return " ".join(filter(None, [_own(effect), *others]))


def _own(effect: Effect) -> str:
    """What becomes of the job's own car."""
    car, job, clock = effect.job.vehicle, id_of("job", effect.job.pk), effect.plan.clock
    if job in effect.plan.unplaced:
        return f"It finds no place in the plan. {effect.plan.unplaced[job].why}"
    done = f"It is done {clock.words(effect.plan.placed[job].end)}; {car}"
    if car.pk not in effect.entries:
        return f"{done} has no event ahead."
    if car.pk not in effect.after:
        return f"{done} does not wait for it."
    event, now, in_time = effect.entries[car.pk].event, effect.after[car.pk], _was_in_time(car.pk, effect)
    if now.in_time is None:
        return f"Whether {car} makes {event} is {now.sentence}"
    if not now.in_time and (in_time or now.ready_at is None):
        return f"{car} {'then' if in_time else 'still'} does not make {event}: {now.sentence}"
    ready, was = clock.said(now.ready_at) if now.ready_at else "", effect.before.get(car.pk)
    told = "in time" if now.in_time else "too late"
    if was is None:
        return f"{car} is then ready {ready}, {told}."
    if was == now.ready_at:
        return f"{car} is ready {ready} as before, {'still ' if now.in_time else ''}{told}."
    if now.ready_at and now.ready_at < was:  # a job more makes nothing sooner: the rest is arranged better
        return f"The plan was made anew with it, and is better: {car} is ready {ready}, {told}."
    again = f"still {told}" if now.in_time and in_time else told if now.in_time else f"{told}, as before"
    return f"{car} is then ready {ready} instead of {clock.said(was)}, {again}."


def _was_in_time(car: int, effect: Effect) -> bool:
    """Whether the car (pk) was in time by the plan that stood; one without work was."""
    was = effect.before.get(car)
    return car not in effect.before or (was is not None and was <= effect.due[car])


def _other(car: int, effect: Effect) -> str:
    """What becomes of another car, when that differs."""
    was, now = _was_in_time(car, effect), car not in effect.after or effect.after[car].in_time
    if now is None or was == now:
        return ""
    verb = "makes" if now else "does not make"
    return f"{effect.entries[car].vehicle} then {verb} {effect.entries[car].event}."
