"""Parts and the ledger of their moves over the years, with what jobs used and asked for."""

from collections import Counter
from collections.abc import Iterator
from datetime import timedelta

from builds.work.models.need import Need
from builds.work.models.owed import PartUse
from garage.engine.systems import SYSTEMS
from parts.actions.places import new_code
from parts.models import Balance, Move, Part, Place
from tests.benchmarks.pages.base import YEAR, Made

PARTS_A_YEAR, MOVES_OF_A_PART, BINS = 1000, 12, 40
NAMES = ("Hub", "Bolt", "Rod end", "Hose", "Pad set", "Bush", "Filter", "Spring", "Seal", "Bracket")


def shelf(made: Made) -> None:
    """Of each part a dozen moves: in, out onto a car for a job and back, into another bin."""
    count = PARTS_A_YEAR * made.years
    bins = Place.objects.bulk_create(
        Place(garage=made.garage, kind="bin", name=f"Bin {number}", code=new_code(), walk_order=number)
        for number in range(BINS)
    )
    rows = (_part(made, number) for number in range(count))
    parts = Part.objects.bulk_create(rows, batch_size=500)
    plans = [plan for number, part in enumerate(parts) for plan in _moves(made, part, number, bins)]
    plans.sort(key=lambda plan: plan[0].at)
    moves = Move.objects.bulk_create((move for move, _ in plans), batch_size=500)
    PartUse.objects.bulk_create(
        (PartUse(job=job, move=move) for move, (_, job) in zip(moves, plans, strict=True) if job), batch_size=500
    )
    _balances(moves)
    Need.objects.bulk_create(_needs(made, parts), batch_size=500)


def _part(made: Made, number: int) -> Part:
    systems = list(SYSTEMS)
    return Part(
        garage=made.garage,
        code=new_code(),
        name=f"{NAMES[number % len(NAMES)]} {number}",
        number=f"WM-{number:05d}",
        systems=[systems[number % len(systems)]],
        condition="new" if number % 3 else "good",
        cost_minor=None if number % 10 == 0 else 500 + number % 7000,
        supplier="Foundry Lane Stores",
        low_level=2 if number % 50 == 0 else None,
        made_at=made.at - made.years * YEAR,
    )


def _moves(made: Made, part: Part, number: int, bins: list[Place]) -> Iterator[tuple[Move, object]]:
    """Five come in; one goes on a car, comes off, goes on again; others are put from bin to bin."""
    job = made.past[number * 4 % len(made.past)]
    home, other = bins[number % BINS], bins[(number + 1) % BINS]
    car, supplier, bench, scrap = job.vehicle.place, *map(made.place, ("supplier", "bench", "scrap"))
    steps = [
        ("receive", 5, supplier, home, None),
        ("pull", 1, home, bench, None),
        ("fit", 1, bench, car, job),
        ("take_off", 1, car, home, None),
        ("put", 2, home, other, None),
        ("put", 2, other, home, None),
        ("pull", 1, home, bench, None),
        ("fit", 1, bench, car, made.past[(number * 4 + 1) % len(made.past)]),
        ("put", 1, home, other, None),
        ("pull", 1, other, bench, None),
        ("put", 1, bench, home, None),
        ("scrap", 1, home, scrap, job if number % 2 else None),
    ]
    assert len(steps) == MOVES_OF_A_PART
    for place, (verb, quantity, source, target, used_for) in enumerate(steps):
        at = job.finished_at - timedelta(hours=len(steps) - place)
        move = Move(part=part, verb=verb, quantity=quantity, source=source, target=target, by=made.owner, at=at)
        yield move, used_for


def _balances(moves: list[Move]) -> None:
    amounts: Counter[tuple[int, Place]] = Counter()
    for move in moves:
        amounts[move.part_id, move.source] -= move.quantity
        amounts[move.part_id, move.target] += move.quantity
    Balance.objects.bulk_create(
        (
            Balance(part_id=part, place=place, quantity=quantity, outside=place.outside)
            for (part, place), quantity in amounts.items()
        ),
        batch_size=500,
    )


def _needs(made: Made, parts: list[Part]) -> Iterator[Need]:
    for number, job in enumerate(made.past):
        if number % 3 == 0:
            part = parts[number % len(parts)] if number % 6 else None
            fit = [{"kind": "thread", "thread": "M12×1.25", "side": "internal"}] if number % 30 == 0 else []
            yield Need(
                job=job,
                part=part,
                what=part.name if part else "Clips",
                fit=fit,
                cost_minor=None if part else 400,
                asked_at=job.made_at,
                got_at=job.finished_at,
            )
