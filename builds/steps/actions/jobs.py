"""Writing a job down, and changing what is written."""

from collections.abc import Collection, Iterable, Mapping
from datetime import datetime
from typing import Any

from django.db import transaction

from builds.readings.actions import remeasure
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.kinds_touch import touched
from builds.readings.engine.welds_said import weld_said
from builds.steps.actions import said_less
from builds.steps.actions.strips import refuse_move
from builds.steps.engine.by_words import is_renamed
from builds.steps.engine.opened import refuse_kinds
from builds.steps.facts.begun import was_begun
from builds.steps.facts.by_words import told_changed
from builds.steps.facts.looks import for_safety, wants_eyes
from builds.work.actions import set_left
from builds.work.engine.faults import is_fault
from builds.work.engine.ranks import RANK_ORDER, rank_for, refuse_rank, refuse_wanted
from builds.work.models.job import Job, JobStation
from builds.work.models.owed import Owed
from garage.access import OWNER
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.engine.reasons import says_why
from garage.engine.systems import SAFETY_SYSTEMS, SYSTEM_LABELS
from garage.models import Membership, Station, Vehicle

# What a change writes besides what else it is told.
CHANGED = (
    *("low_minutes", "likely_minutes", "high_minutes", "systems", "rank"),
    *("lowered_because", "was_safety", "was_called", "weld"),
)


def refuse_lowering(
    rank: str, systems: list[str], reason: str, was: str = "", *, kinds: Collection[str] = (), known: str = ""
) -> str | None:
    """Why a job may not rank so low: what it touches or opens, or what it ranked until now (`was`).

    `known` is what makes it more than a plan, in words: that somebody saw it, that it was begun.
    """
    systems = list(touched(systems, kinds))
    rank = rank or rank_for(systems) or Job.Rank.NEEDED
    if wrong := refuse_rank(rank, systems, reason):
        return wrong
    if was == Job.Rank.SAFETY and rank != Job.Rank.SAFETY and not says_why(reason):
        return "This is a safety job: write down why it may rank below safety."
    if known and was != rank == Job.Rank.WANTED and not says_why(reason):
        return f"{known}: write down why it may rank lower."
    return None


def known_of(job: Job | None) -> str:
    """What makes it more than a plan, in words; empty where nobody saw it and no hands were on it."""
    if job is None:
        return ""
    return "Somebody saw this" if job.was_seen else "It was begun" if was_begun(job) else ""


def refuse_lowering_by(by: Membership, job: Job, systems: list[str], rank: str, reason: str) -> None:
    """Lowering a safety job is the owner's alone: its rank, what it touches, and why it may be lower."""
    if by.role == OWNER:
        return
    if gone := [SYSTEM_LABELS[slug] for slug in job.systems if slug in SAFETY_SYSTEMS and slug not in systems]:
        raise Refused(f"“{job}” is a safety job: only the owner takes this off: {', '.join(gone)}.", "systems")
    if job.rank == Job.Rank.SAFETY and rank != Job.Rank.SAFETY:
        raise Refused(f"“{job}” is a safety job: only the owner ranks it lower.", "rank")
    if RANK_ORDER[rank] > RANK_ORDER[job.rank] and was_begun(job):
        raise Refused(f"“{job}” was begun: only the owner ranks it lower.", "rank")
    if job.lowered_because and rank != Job.Rank.SAFETY and reason != job.lowered_because:
        raise Refused(f"Only the owner says why “{job}” may rank below safety.", "lowered_because")


def lowered_from(job: Job | None) -> str:
    """The rank below which a job goes with a reason: safety too where it once was that."""
    if job is None:
        return ""
    return Job.Rank.SAFETY if job.was_safety else job.rank


def settle_rank(
    systems: list[str], rank: str, reason: str, job: Job | None = None, *, kinds: Collection[str] = ()
) -> tuple[str, str]:
    """The rank and the reason that stand; Refused when it is lowered without one."""
    was, known = lowered_from(job), known_of(job)
    if wrong := refuse_lowering(rank, systems, reason, was, kinds=kinds, known=known):
        raise Refused(wrong, "lowered_because")
    own = rank_for(touched(systems, kinds))
    rank = rank or own or Job.Rank.NEEDED
    once_safety = Job.Rank.SAFETY in (own, was) or bool(job and job.was_safety)
    lowered = (once_safety and rank != Job.Rank.SAFETY) or (known and rank == Job.Rank.WANTED)
    return rank, reason.strip() if lowered else ""


def rank_after(job: Job, kinds: Collection[str]) -> str:
    """Its rank once it did this: what opens brakes is for safety, unless the owner said why not."""
    own = rank_for(touched(job.systems, kinds))
    return job.rank if own is None or job.lowered_because else own


def _refuse_wanted(rank: str, systems: Collection[str], told: Mapping[str, Any], job: Job | None = None) -> None:
    """A recipe says itself what its jobs are; of what somebody saw a likely weld does not say what is welded."""
    if job and job.was_seen and told.get("kinds_likely") and not touched(systems, told["kinds"]):
        told = {**told, "kinds": ()}
    said = (told.get("kinds") or (), told.get("measures") or (), told.get("recipe") or "")
    if wrong := refuse_wanted(rank, systems, *said):
        raise Refused(wrong, "rank")


def _set_stations(job: Job, uses: Mapping[Station, int]) -> None:
    if any(station.garage_id != job.vehicle.garage_id for station in uses):
        raise Refused("The station must be in the same garage.")
    JobStation.objects.filter(job=job).exclude(station__in=uses).delete()
    for station, units in uses.items():
        JobStation.objects.update_or_create(job=job, station=station, defaults={"units": units})


@transaction.atomic
def add(vehicle: Vehicle, *, by: Membership, at: datetime, **fields: Any) -> Job:
    """Write down a job as `write` does, by whoever works on that car; what must be measured again comes after it."""
    work_or_refuse(by, vehicle)
    return add_after(vehicle, by=by, at=at, **fields)


def add_after(vehicle: Vehicle, *, by: Membership, at: datetime, **fields: Any) -> Job:
    """As `add`, where it follows from what was done, whoever did it."""
    if wrong := refuse_kinds(fields.get("kinds", ())):
        raise Refused(wrong, "kinds")
    job = write(vehicle, by=by, at=at, **fields)
    remeasure.settle(vehicle, by=by, at=at)
    return job


@transaction.atomic
def add_several(vehicle: Vehicle, told: Iterable[Mapping[str, Any]], *, by: Membership, at: datetime) -> list[Job]:
    """Each as `write` takes it; what must be measured again comes after all of them. Raises Refused."""
    work_or_refuse(by, vehicle)
    written = [write(vehicle, by=by, at=at, **fields) for fields in told]
    remeasure.settle(vehicle, by=by, at=at)
    return written


@transaction.atomic
def write(
    vehicle: Vehicle,
    *,
    by: Membership,
    at: datetime,
    title: str,
    work: tuple[int, int, int],
    systems: list[str] | None = None,
    rank: str = "",
    lowered_because: str = "",
    stations: Mapping[Station, int] | None = None,
    **more: Any,
) -> Job:
    """A job alone; its rank follows its systems unless one is given. Raises Refused."""
    low, likely, high = work
    rank, reason = settle_rank(systems or [], rank, lowered_because, kinds=more.get("kinds", ()))
    _refuse_wanted(rank, systems or (), more)
    if reason and by.role != OWNER and not more.get("recipe"):
        raise Refused("Only the owner ranks a safety job lower.", "rank")
    if not more.get("recipe"):
        more["weld"] = weld_said(title, more.get("kinds", ())) or more.get("weld", "")
    job = Job.objects.create(
        vehicle=vehicle,
        title=title,
        systems=systems or [],
        rank=rank,
        lowered_because=reason,
        was_safety=bool(reason),
        low_minutes=low,
        likely_minutes=likely,
        high_minutes=high,
        made_by=by,
        made_at=at,
        **more,
    )
    _set_stations(job, stations or {})
    return job


def weld_of(job: Job, kinds: Collection[str]) -> str:
    """How it leaves a weld where it does this (kinds): by its recipe, or by its words where it was written by hand."""
    return job.weld if job.recipe else weld_said(job.title, kinds) or (job.weld if job.batch else "")


def refuse_less(job: Job, systems: list[str], kinds: list[str], by: Membership) -> None:
    """What work has touched it has touched: readings, ticks and gear rest on it being said."""
    begun = was_begun(job)
    if by.role == OWNER or not (begun or for_safety(job)):
        return
    for field, old, new, labels in (
        # What was only likely may be said better, until hands were on it; that it is for safety stays.
        (
            "kinds",
            [] if job.kinds_likely and not begun else job.kinds,
            kinds,
            {slug: kind.label for slug, kind in KINDS.items()},
        ),
        ("systems", job.systems, systems, SYSTEM_LABELS),
    ):
        if gone := [labels[slug] for slug in old if slug not in new]:
            what = ", ".join(gone)
            line = f"“{job}” is a safety job: only the owner takes this off: {what}."
            if begun:
                line = f"“{job}” was begun with this: {what}. Only the owner takes it off."
            raise Refused(line, field)


def _refuse_move(job: Job, by: Membership) -> None:
    if (job.was_seen or is_fault(job.words, job.recipe)) and wants_eyes(job):
        line = f"“{job}” was seen on {job.vehicle}: drop it here with a reason, and write it down on the other car."
        raise Refused(line, "vehicle")
    if wrong := remeasure.refuse_by_hand(job, "move"):
        raise Refused(wrong)
    refuse_move(job)
    if Owed.objects.filter(job=job).standing().exists():
        raise Refused(f"“{job}” brings back what {job.vehicle} lacks: it stays on {job.vehicle}.", "vehicle")
    if was_begun(job):
        line = f"“{job}” was begun on {job.vehicle}, and stays there: write down a new job on the other car."
        raise Refused(line, "vehicle")
    if for_safety(job) and by.role != OWNER:
        raise Refused(f"“{job}” is a safety job of {job.vehicle}: only the owner moves it.", "vehicle")


def _ranked_by(
    by: Membership, job: Job, systems: list[str], rank: str, reason: str, *, kinds: Collection[str]
) -> tuple[str, str]:
    """As `settle_rank`, by somebody who may: whose it is to lower it comes before why."""
    rank = rank or rank_for(touched(systems, kinds)) or Job.Rank.NEEDED
    refuse_lowering_by(by, job, systems, rank, reason.strip())
    return settle_rank(systems, rank, reason, job, kinds=kinds)


def _moves(job: Job, vehicle: Vehicle, by: Membership) -> bool:
    """Whether it goes to another car. Raises Refused where it may not."""
    for car in (job.vehicle, vehicle):
        work_or_refuse(by, car, "vehicle")
    if vehicle == job.vehicle:
        return False
    _refuse_move(job, by)
    return True


@transaction.atomic
def change(
    job: Job,
    *,
    by: Membership,
    at: datetime,
    work: tuple[int, int, int],
    systems: list[str],
    rank: str,
    lowered_because: str,
    stations: Mapping[Station, int],
    left_minutes: int | None,
    because: str = "",
    turned_out: str | None = None,
    **more: Any,
) -> Job:
    """`because` is why begun work did less than stood there, `turned_out` what the owner says that it was.

    Raises Refused.
    """
    left = job.vehicle
    if _moves(job, more.get("vehicle", left), by):
        more["night"] = None  # where that car goes is not where this one does
    if job.recipe and is_renamed(job.title, more.get("title", job.title)):
        by_hand = told_changed(job, more["title"], systems, more.get("kinds", job.kinds)).fields
        systems = by_hand.pop("systems")
        more |= by_hand | {"skill": by_hand["skill"] or more.get("skill", job.skill), "recipe": ""}
    kinds = more.get("kinds", job.kinds)
    refuse_less(job, systems, kinds, by)
    if set(kinds) != set(job.kinds) and (wrong := refuse_kinds(kinds)):
        raise Refused(wrong, "kinds")
    rank, reason = _ranked_by(by, job, systems, rank, lowered_because, kinds=kinds)
    told = {"kinds": kinds, "kinds_likely": job.kinds_likely, "measures": job.measures, "recipe": job.recipe, **more}
    _refuse_wanted(rank, systems, told, job)
    more |= said_less.taken_off(job, systems, kinds, because) | said_less.turned_out(job, turned_out, by)
    job.was_safety = rank != Job.Rank.SAFETY and (job.was_safety or for_safety(job))
    job.was_called = said_less.was_called(job, more.get("title", job.title))
    job.low_minutes, job.likely_minutes, job.high_minutes = work
    job.systems, job.rank, job.lowered_because = systems, rank, reason
    for name, value in more.items():
        setattr(job, name, value)
    job.weld = job.weld if job.finished_at else weld_of(job, job.kinds)
    job.save(update_fields=[*CHANGED, *more])
    _set_stations(job, stations)
    if left_minutes != job.left_minutes:
        set_left(job, left_minutes, at=at)
    for vehicle in {left, job.vehicle}:
        remeasure.settle(vehicle, by=by, at=at)
    return job
