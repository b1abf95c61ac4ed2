"""After the event: that a car has run, what is looked at again, and the strip-down check."""

from collections.abc import Iterable
from datetime import datetime

from django.db import transaction

from builds.recipes.actions import putting as recipes
from builds.recipes.facts import known_recipe
from builds.scrutineering.actions import check_lists
from builds.scrutineering.engine.check_list import FIRST_RUN
from builds.scrutineering.models.check import CheckList, CheckLog
from builds.steps.actions import jobs, steps
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import TITLE_MOST, Job
from garage.actions.refused import Refused
from garage.models import Entry, Event, Membership

STRIP_DOWN = "post-event-strip-down"


@transaction.atomic
def first_session(entry: Entry, *, by: Membership, at: datetime) -> EntryRun:
    """The entry's first session is run: work of the kind `first_run`, and a short list to tick."""
    _refuse_answered(entry)
    if at < entry.event.gates_at:
        raise Refused(f"The gates of {entry.event} are not open yet.")
    _come_back(entry)
    job = jobs.add(
        entry.vehicle,
        by=by,
        at=at,
        title=f"First session at {entry.event}"[:TITLE_MOST],
        work=(0, 0, 0),
        rank=Job.Rank.WANTED,
        kinds=["first_run"],
    )
    steps.finish(job, by=by, at=at)
    check_lists.make(entry, by=by, at=at, kind=FIRST_RUN)
    return EntryRun.objects.create(entry=entry, at=at, by=by, job=job)


def _come_back(entry: Entry) -> None:
    """Withdrawn only once the event had begun, it ran all the same: it is entered as before."""
    if not entry.withdrawn_at:
        return
    if entry.withdrawn_at < entry.event.gates_at:
        raise Refused(f"{entry.vehicle} is withdrawn from {entry.event}.")
    entry.withdrawn_at = None
    entry.save(update_fields=["withdrawn_at"])


def _refuse_answered(entry: Entry) -> None:
    run = EntryRun.objects.filter(entry=entry).first()
    if run is not None and run.ran:
        raise Refused(f"The first session of {entry.vehicle} is written down already.")
    if run is not None:
        raise Refused(f"It is written down that {entry.vehicle} did not run: take that back first.")


@transaction.atomic
def did_not_run(entry: Entry, *, by: Membership, at: datetime) -> EntryRun:
    """The entered car stayed where it was: what running changes holds as it was."""
    if at < entry.event.ends_at:
        raise Refused(f"{entry.event} is not over yet.")
    _refuse_answered(entry)
    return EntryRun.objects.create(entry=entry, ran=False, at=at, by=by)


@transaction.atomic
def not_run(run: EntryRun, *, by: Membership, at: datetime) -> None:
    """Take back what was said of its running, as long as nothing was looked at after it."""
    lists = CheckList.objects.of(run.entry, FIRST_RUN)
    if CheckLog.objects.filter(item__checklist__in=lists).exists():
        raise Refused("Something was looked at after it: the first session stays.")
    if run.stripped:
        raise Refused("The strip-down check is on the car: the first session stays.")
    lists.delete()
    if run.job and run.job.state != "dropped":
        steps.reopen(run.job, by=by, at=at, reason="The car has not run.")
        steps.drop(run.job, by=by, at=at, reason="The car has not run.")
    run.delete()


@transaction.atomic
def strip_down(event: Event, entries: Iterable[Entry], *, by: Membership, at: datetime) -> dict[int, list[Job]]:
    """The strip-down check on the cars that ran, by their pk. Raises Refused."""
    if event.ends_at > at:
        raise Refused(f"{event} is not over yet.")
    known, made = known_recipe(event.garage, STRIP_DOWN), dict[int, list[Job]]()
    if known is None:
        raise Refused("There is no recipe for the strip-down check.")
    for entry in entries:
        if entry.event_id != event.pk:
            raise Refused(f"{entry.vehicle} was not entered for {event}.")
        run, _ = EntryRun.objects.get_or_create(entry=entry, defaults={"at": at, "by": by})
        if run.stripped:
            raise Refused(f"The strip-down check is on {entry.vehicle} already.")
        run.ran = True
        put = list(recipes.put(known.recipe, entry.vehicle, by=by, at=at).values())
        run.stripped = put[0].batch
        run.save(update_fields=["ran", "stripped"])
        made[entry.vehicle_id] = put
    if not made:
        raise Refused("Tick at least one car that ran.", "entries")
    return made
