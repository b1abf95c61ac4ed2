"""A job said less of than stood there: what was taken off it and why, what it said first, what it turned out to be."""

from collections.abc import Collection
from typing import Any

from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.engine.by_words import loses
from builds.steps.engine.opened import opens_nothing_of
from builds.steps.engine.said_less import WHY_LESS, less_words
from builds.steps.facts.begun import was_begun
from builds.steps.facts.looks import for_safety, unread
from builds.work.models.job import Job
from garage.access import OWNER
from garage.actions.refused import Refused
from garage.engine.reasons import says_why
from garage.engine.systems import SYSTEMS
from garage.models import Membership

WHAT_IT_WAS = "Say in words what it was: the next who reads it has to understand it."
OWNER_SAYS = "Only the owner says what it was."


def taken_off(job: Job, systems: Collection[str], kinds: Collection[str], because: str) -> dict[str, Any]:
    """What stands on a job that is changed to these: of begun work what is taken off stays named. Raises Refused.

    What was only likely is asked for at its finish, where it is taken off before work is begun.
    """
    off_kinds, off_systems = {*job.kinds} - {*kinds}, {*job.systems} - {*systems}
    now = _in_order({*job.not_opened} - {*kinds}, {*job.not_touched} - {*systems})
    if was_begun(job) and (off_kinds or off_systems):
        if not says_why(because):
            raise Refused(WHY_LESS.format(less_words(*_in_order(off_kinds, off_systems))), "because")
        now = _in_order({*now[0]} | off_kinds, {*now[1]} | off_systems)
        return {"not_opened": now[0], "not_touched": now[1], "nothing_because": because.strip()}
    if job.kinds_likely and off_kinds:
        return {"not_opened": _in_order({*now[0]} | off_kinds, ())[0], "not_touched": now[1]}
    told = {"not_opened": now[0], "not_touched": now[1]}
    had = bool(job.not_opened or job.not_touched)
    return told if any(now) or not had or opens_nothing_of(systems, kinds) else {**told, "nothing_because": ""}


def _in_order(kinds: Collection[str], systems: Collection[str]) -> tuple[list[str], list[str]]:
    return [kind for kind in KINDS if kind in kinds], [system for system in SYSTEMS if system in systems]


def was_called(job: Job, title: str) -> str:
    """What it said first, of one that is for safety or that somebody saw, where its new title says less.

    Where nobody could read what was seen, any other words say something else.
    """
    told = job.was_called or job.title
    grave = for_safety(job) or job.was_seen
    keeps = (grave or job.was_called) and title != told and (unread(job) or job.turned_out or loses(told, title))
    return told if keeps else ""


def turned_out(job: Job, words: str | None, by: Membership) -> dict[str, Any]:
    """What stands on a job of which the owner says in words what it was; None leaves that unsaid. Raises Refused."""
    told = {"was_unread": job.was_unread or unread(job)}
    if words is None or words.strip() == job.turned_out:
        return told
    if by.role != OWNER:
        raise Refused(OWNER_SAYS, "turned_out")
    if words.strip() and not says_why(words):
        raise Refused(WHAT_IT_WAS, "turned_out")
    return {**told, "turned_out": words.strip()}
