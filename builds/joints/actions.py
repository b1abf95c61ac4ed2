"""Joints of a car: written down, marked with their torque, signed, taken off the list."""

import uuid
from collections.abc import Iterable
from datetime import datetime
from typing import Any, NamedTuple

from django.db import IntegrityError, transaction
from django.db.models import OuterRef, Subquery

from builds.joints.engine.joints import OFF_SAID, joint_said, off_figure
from builds.joints.facts import hands_on, joint_standings
from builds.joints.models import Joint, JointMark
from builds.readings.engine.kinds_of_work import disturbed_by
from builds.steps.actions.signatures import look_or_refuse
from builds.work.models.job import Job
from garage.access import OWNER
from garage.actions.hands import work_or_refuse
from garage.actions.refused import Refused
from garage.engine.reasons import refuse_faulty, says_why
from garage.models import Membership, Vehicle

FIELDS = (
    *("name", "systems", "opened_by", "thread", "klass"),
    *("figure_mnm", "figure_from", "wrench", "again_after_run"),
)
# Once marked, and nobody's word for it holds until somebody torques or looks again.
UNLOOKED = frozenset({"loose", "void", "off", "unsigned", "due", "asked", "wrench", "ahead"})
TAKEN = "This car has a joint of that name already."


@transaction.atomic
def add(vehicle: Vehicle, **fields: Any) -> Joint:
    """What nobody said of it, its name says: what it belongs to, and which work opens it."""
    joint = Joint(vehicle=vehicle, **fields)
    said = joint_said(joint.name, joint.systems, joint.opened_by)
    joint.systems, joint.opened_by = list(said[0]), list(said[1])
    return _saved(joint)


def _refuse_unlooked(joint: Joint, what: str, *, at: datetime) -> None:
    """What was torqued once and does not stand is put right first: that takes nobody's word away."""
    there = joint_standings(joint.vehicle.garage, [joint.vehicle], at).get(joint.vehicle_id, [])
    if any(line.joint.pk == joint.pk and line.mark and line.standing.state in UNLOOKED for line in there):
        raise Refused(f"{joint} was torqued, and that does not stand: have it torqued and signed before {what}.")


@transaction.atomic
def change(joint: Joint, *, by: Membership, at: datetime, **fields: Any) -> Joint:
    """As it is written now; what makes it a safety joint, opens it or judges its torque only the owner changes.

    What opened it, or has it signed or torqued anew, is not taken off it until it stands, by nobody.
    """
    work_or_refuse(by, joint.vehicle)
    less = [name for name in ("systems", "opened_by") if not set(getattr(joint, name)) <= set(fields[name])]
    if by.role != OWNER:
        if less:
            raise Refused("Only the owner takes something off here.", less[0])
        if joint.again_after_run and not fields["again_after_run"]:
            raise Refused("Only the owner says that it is not due again.", "again_after_run")
        if joint.figure_mnm not in (None, fields["figure_mnm"]):
            raise Refused("Only the owner changes the maker's figure.", "figure_mnm")
    if less or (joint.again_after_run and not fields["again_after_run"]):
        _refuse_unlooked(joint, "anything is taken off here", at=at)
    for name in FIELDS:
        setattr(joint, name, fields[name])
    return _saved(joint)


def _saved(joint: Joint) -> Joint:
    others = Joint.objects.on(joint.vehicle).kept().filter(name__iexact=joint.name)
    if others.exclude(pk=joint.pk).exists():
        raise Refused(TAKEN, "name")
    if joint.figure_mnm and not joint.figure_from.strip():
        raise Refused("Write down where the figure is from: the maker's figure counts.", "figure_from")
    try:
        with transaction.atomic():
            joint.save()
    except IntegrityError as error:
        raise Refused(TAKEN, "name") from error
    return joint


def retire(joint: Joint, *, at: datetime) -> None:
    """Off the list; its marks stay in the books. Raises Refused while it does not stand, or is about to be opened."""
    _refuse_unlooked(joint, "it comes off the list", at=at)
    for job in Job.objects.on(joint.vehicle).open():
        if not disturbed_by(joint.opened_by).isdisjoint(job.kinds):
            raise Refused(
                f"“{job}” opens {joint} and is not over: it comes off the list once it was torqued after that."
            )
    joint.retired_at = at
    joint.save(update_fields=["retired_at"])


def _refuse_mark(joint: Joint, torque_mnm: int | None, note: str, after: int | None) -> None:
    last = last_mark(joint)
    if last and after is not None and last.pk != after:
        told = " ".join(filter(None, [f"{last.by} torqued it meanwhile", last.typed and f"to {last.typed}"]))
        raise Refused(f"{told}: agree which stands, then write it down.", "after")
    if torque_mnm is None and joint.figure_mnm is not None:
        raise Refused("Write down the torque it was brought to.", "torque_mnm")
    if torque_mnm is not None and off_figure(torque_mnm, joint.figure_mnm) and not says_why(note):
        raise Refused(OFF_SAID, "note")
    if wrong := refuse_faulty(note):
        raise Refused(wrong, "note")


@transaction.atomic
def mark(
    joint: Joint,
    *,
    by: Membership,
    at: datetime,
    key: uuid.UUID,
    torque_mnm: int | None = None,
    typed: str = "",
    wrench: str = "",
    note: str = "",
    arrived: datetime | None = None,
    after: int | None = None,
) -> JointMark:
    """Torqued, and striped; the same key counts once. Raises Refused.

    `after` is the mark (pk, 0 for none) that it was written down after, where that is known: another
    torque since is said, not covered up.

    `at` is the moment of the hand; from a phone that was without signal `arrived` is when it was
    heard of. Far off the maker's figure it wants a reason.
    """
    if again := _known(joint, key):
        return again
    work_or_refuse(by, joint.vehicle)
    Joint.objects.select_for_update().get(pk=joint.pk)  # of two who mark it at once, one sees the other's
    _refuse_mark(joint, torque_mnm, note, after)
    return JointMark.objects.create(
        joint=joint,
        torque_mnm=torque_mnm,
        typed=typed[:40],
        wrench=wrench[:60],
        note=note.strip()[:200],
        by=by,
        at=min(at, arrived or at),
        arrived_at=arrived or at,
        key=key,
    )


class Marking(NamedTuple):
    """A joint among several that were torqued, and what `mark` is told of it."""

    joint: Joint
    told: dict[str, Any]


@transaction.atomic
def mark_many(markings: Iterable[Marking], *, by: Membership, at: datetime, key: uuid.UUID) -> list[JointMark]:
    """All of them, or none; a refusal names the joint."""
    marks = []
    for joint, told in markings:
        try:
            marks.append(mark(joint, by=by, at=at, key=uuid.uuid5(key, str(joint.pk)), **told))
        except Refused as refused:
            raise Refused(f"{joint}: {refused}", refused.field) from refused
    return marks


@transaction.atomic
def sign(
    joint: Joint,
    *,
    by: Membership,
    at: datetime,
    key: uuid.UUID,
    who: Membership | None = None,
    outsider: str = "",
    note: str = "",
    arrived: datetime | None = None,
    of: int | None = None,
) -> JointMark:
    """A second person looked at the last mark, or at the mark `of` (pk). Raises Refused."""
    if again := _known(joint, key):
        return again
    Joint.objects.select_for_update().get(pk=joint.pk)
    last = counted_mark(joint, at)
    if last is None:
        raise Refused(f"{joint} has no mark yet: there is nothing to look at.")
    if of is not None and last.pk != of:
        raise Refused(f"{joint} was torqued anew meanwhile: look at that mark.")
    if JointMark.objects.filter(signs=last).exists():
        raise Refused(f"{joint} is signed already.")
    if wrong := refuse_faulty(note):
        raise Refused(wrong, "note")
    garage = joint.vehicle.garage_id
    workers = hands_on([(joint, last)])[joint.pk]
    look = look_or_refuse(workers, safety=joint.safety, garage=garage, by=by, who=who, outsider=outsider)
    return JointMark.objects.create(
        joint=joint,
        signs=last,
        note=note.strip()[:200],
        alone=look.alone,
        outsider=look.outsider,
        by=look.who,
        written_by=look.by,
        at=max(last.at, min(at, arrived or at)),
        arrived_at=arrived or at,
        key=key,
    )


@transaction.atomic
def sign_many(looked_at: Iterable[tuple[Joint, JointMark]], *, by: Membership, at: datetime, key: uuid.UUID) -> int:
    """All of them, or none; a refusal names the joint. How many."""
    count = 0
    for joint, seen in looked_at:
        try:
            sign(joint, by=by, at=at, key=uuid.uuid5(key, str(joint.pk)), of=seen.pk)
        except Refused as refused:
            raise Refused(f"{joint}: {refused}") from refused
        count += 1
    return count


def last_mark(joint: Joint) -> JointMark | None:
    return JointMark.objects.filter(joint=joint).torqued().order_by("-at", "-pk").first()


def counted_mark(joint: Joint, at: datetime) -> JointMark | None:
    """The last one, but for one of a day to come after which another was put on."""
    last = last_mark(joint)
    if last is None or last.at <= at:
        return last
    return JointMark.objects.filter(joint=joint).put_on_after(last.pk, at).first() or last


def last_marks(joints: Iterable[Joint]) -> dict[int, int]:
    """The last torque mark (pk) of each joint (pk) that has one; one query."""
    newest = JointMark.objects.filter(joint=OuterRef("pk")).torqued().order_by("-at", "-pk")
    rows = Joint.objects.filter(pk__in=[joint.pk for joint in joints]).annotate(last=Subquery(newest.values("pk")[:1]))
    return dict(rows.exclude(last=None).values_list("pk", "last"))


def _known(joint: Joint, key: uuid.UUID) -> JointMark | None:
    row = JointMark.objects.filter(key=key).first()
    if row and row.joint_id != joint.pk:
        raise Refused("This tap was used already, for something else.")
    return row
