"""What the verdict is told of parts, car by car."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable
from datetime import datetime
from zoneinfo import ZoneInfo

from django.db.models import Exists, F, OuterRef, Q, QuerySet, Subquery

from builds.needs.facts.fits import answer_of
from builds.readings.engine.kinds_touch import touched
from builds.verdict.engine import DoubtFact, PartFact
from builds.work.facts.runs import RunsByCar
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.owed import PartUse
from builds.work.models.states import FINISHED_STATES, State
from garage.engine.systems import SAFETY_SYSTEMS
from garage.models import Garage, Vehicle
from parts.engine.fit import DOES_NOT
from parts.models import Balance, Move, Part, Place

FactsByCar = dict[int, tuple[PartFact, ...]]
MUST = (Job.Rank.SAFETY, Job.Rank.NEEDED)


def parts_facts(garage: Garage, cars: list[Vehicle], at: datetime, runs: RunsByCar) -> FactsByCar:
    """Of each car (pk) the parts that are not as they must be; every car has its parts on record.

    A need that was never got stands in the way once its job is finished, and so does a part that was pulled for it
    and never fitted; what went on a car though it does not fit stands there until it comes off again. At most three
    queries.
    """
    rows = Need.objects.filter(job__vehicle__in=cars).exclude(job__state=State.DROPPED)
    needs = list(
        rows.filter(Q(job__state__in=FINISHED_STATES) & (Q(got_at=None) | Exists(_pulled())) | ~Q(fit=[]))
        .select_related("job", "part")
        .order_by("job", "pk")
    )
    facts: dict[int, list[PartFact]] = defaultdict(list)
    over = [need for need in needs if need.job.state in FINISHED_STATES and _must(need.job)]
    left, off_car = _left_lying(need for need in over if need.got_at is not None and need.part_id)
    for need in over:
        if need.got_at is None or (need.job_id, need.part_id) in left:
            off = need.part.touches if need.part and (need.job_id, need.part_id) in off_car else ()
            fact = PartFact(need.job_id, need.job.title, need.what, "unfitted", off)
            facts[need.job.vehicle_id].append(fact)
    asked = {need.job_id for need in needs if need.fit and need.part_id}
    fitted = _fitted(asked) if asked else set()
    for need in needs:
        if need.part is None or (need.job_id, need.part_id) not in fitted:
            continue
        answer = answer_of(need, need.part)
        if answer and answer.state == DOES_NOT:
            fact = PartFact(need.job_id, need.job.title, need.part.name, "misfit")
            facts[need.job.vehicle_id].append(fact)
    return {car.pk: tuple(facts[car.pk]) for car in cars}


def _pulled() -> QuerySet[PartUse]:
    """What was pulled for a need's job: the ledger says whether it went on."""
    return PartUse.objects.standing().filter(job=OuterRef("job"), move__part=OuterRef("part"), move__verb="pull")


def _left_lying(needs: Iterable[Need]) -> tuple[set[tuple[int, int | None]], set[tuple[int, int | None]]]:
    """Of the jobs (pk) and parts (pk) of these needs those of which fewer went on than had to, and of these those
    that came off the car; one query.

    What came off a car goes back on, all of it; of what was brought from the shelf only what was asked for.
    """
    asked: Counter[tuple[int, int | None]] = Counter()
    for need in needs:
        asked[need.job_id, need.part_id] += need.quantity
    if not asked:
        return set(), set()
    off_car, brought, fitted = (Counter[tuple[int, int | None]]() for _ in range(3))
    uses = PartUse.objects.standing().filter(job__in={job for job, _ in asked}, move__verb__in=["pull", "fit"])
    told = ("job_id", "move__part_id", "move__verb", "move__source__kind", "move__quantity")
    for job, part, verb, source, many in uses.values_list(*told):
        if verb == "fit":
            fitted[job, part] += many
        elif source == Place.Kind.CAR:
            off_car[job, part] += many
        if verb == "pull" or source != Place.Kind.BENCH:
            brought[job, part] += many
    left = {key for key, many in asked.items() if fitted[key] < max(off_car[key], min(many, brought[key]))}
    return left, {key for key in left if fitted[key] < off_car[key]}


def doubted_facts(garage: Garage, cars: list[Vehicle]) -> dict[int, list[DoubtFact]]:
    """Of each car (pk) the parts on it that would not be fitted so; one query.

    Who fits what has an unknown history says why; that it has one may be found out only afterwards.
    """
    fits = Move.objects.standing().filter(verb="fit", part=OuterRef("part"), target=OuterRef("place"))
    since = Subquery(fits.order_by("-pk").values("at")[:1])
    bad = Q(part__condition__in=[Part.Condition.SCRAP, Part.Condition.REPAIR])
    found_out = Q(part__condition=Part.Condition.UNKNOWN, part__condition_at__gt=F("since"))
    rows = Balance.objects.filter(place__vehicle__in=cars, quantity__gt=0).annotate(since=since).filter(bad | found_out)
    zone = ZoneInfo(garage.time_zone)
    by_car: dict[int, list[DoubtFact]] = defaultdict(list)
    for balance in rows.select_related("part__condition_by__person", "place").order_by("part__name", "pk"):
        part = balance.part
        said = part.condition_at.astimezone(zone) if part.condition_at else None
        by = part.condition_by.name if part.condition_by else ""
        fact = DoubtFact(part.pk, part.name, part.condition, part.touches, by, said)
        by_car[balance.place.vehicle_id].append(fact)
    return by_car


def _must(job: Job) -> bool:
    return job.rank in MUST or not SAFETY_SYSTEMS.isdisjoint(touched(job.systems, job.kinds))


def _fitted(jobs: Collection[int]) -> set[tuple[int, int]]:
    """Of these jobs (pk), with the parts (pk) that were fitted for them and are on the car now; one query."""
    there = Balance.objects.filter(part=OuterRef("move__part"), place=OuterRef("move__target"), quantity__gt=0)
    uses = PartUse.objects.standing().filter(job__in=jobs, move__verb="fit")
    return set(uses.filter(Exists(there)).values_list("job_id", "move__part_id"))
