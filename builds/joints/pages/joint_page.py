"""What the page of a car's joints says of each."""

from dataclasses import dataclass
from datetime import datetime

from builds.joints.engine.joints import OPENERS, opens, torque_words
from builds.joints.facts import JointLine, coming_work, hands_to_sign, joint_lines
from builds.joints.models import Joint
from builds.joints.pages.words import joint_torque_words, look_words, range_words
from builds.readings.engine.kinds_of_work import disturbed_by
from builds.steps.engine.cautions import cautions_for
from builds.steps.engine.looks import Eyes
from builds.steps.facts.looks import hands_in
from builds.steps.pages.looks import look_offer
from builds.work.engine.welds import LABELS, Weld
from builds.work.models.job import Job
from garage.clock import clock_words
from garage.models import Membership, Vehicle

WORD = {
    "stands": ("full", "signed"),
    "unsigned": ("dashed", "marked, not signed"),
    "due": ("half", "due again"),
    "asked": ("half", "due again if it ran"),
    "ahead": ("half", "written down for a day to come"),
    "wrench": ("half", "torqued with what was out of its date"),
    "void": ("none", "its mark holds no more"),
    "off": ("half", "not at its figure"),
    "loose": ("none", "loose"),
}


@dataclass(frozen=True)
class JointRow:
    """`stripe` and `word` as the mark on it; `may_sign` for whoever looks, `writes` as of a LookOffer."""

    joint: Joint
    facts: str
    stripe: str
    word: str
    takes: str
    too_much: str
    why: str
    last: str
    may_sign: bool
    writes: str
    mark: int | None


@dataclass(frozen=True)
class JobJoints:
    """What a job does to joints: those that it opens, and the state in which it leaves a weld."""

    opened: tuple[JointRow, ...]
    weld: str


@dataclass(frozen=True)
class JointView:
    """Those that want a hand first."""

    wanting: tuple[JointRow, ...]
    standing: tuple[JointRow, ...]
    cautions: tuple[str, ...]


def joint_view(vehicle: Vehicle, me: Membership, at: datetime) -> JointView:
    lines = joint_lines(vehicle.garage, [vehicle], at).get(vehicle.pk, [])
    rows = [
        (line.standing.state, joint_row)
        for line, joint_row in zip(lines, _rows(lines, me, hands_in(me.garage), at), strict=True)
    ]
    return JointView(
        tuple(joint_row for state, joint_row in rows if state != "stands"),
        tuple(joint_row for state, joint_row in rows if state == "stands"),
        tuple(
            caution.text
            for caution in cautions_for(
                {slug for line in lines for slug in line.joint.systems}, {"joint_opened", "pin_out"}
            )
        ),
    )


def job_joints(job: Job, me: Membership, people: list[Eyes], at: datetime) -> JobJoints:
    """No query for work that opens no joint; otherwise as `joint_lines`. `people` are all hands."""
    return JobJoints(_opened(job, me, people, at), LABELS[Weld(job.weld)] if job.weld else "")


def _opened(job: Job, me: Membership, people: list[Eyes], at: datetime) -> tuple[JointRow, ...]:
    if disturbed_by(OPENERS).isdisjoint(job.kinds):
        return ()
    work = coming_work(job)
    lines = joint_lines(me.garage, [job.vehicle], at).get(job.vehicle_id, [])
    return tuple(_rows([line for line in lines if opens(line.joint, work)], me, people, at))


def _rows(lines: list[JointLine], me: Membership, people: list[Eyes], at: datetime) -> list[JointRow]:
    hands = hands_to_sign(me.garage, lines)
    return [_row(line, me, people, hands.get(line.joint.pk), at) for line in lines]


def _row(line: JointLine, me: Membership, people: list[Eyes], hands: frozenset[int] | None, at: datetime) -> JointRow:
    """`hands` (pk) were on it, of one that waits for a look."""
    joint, mark, state = line.joint, line.mark, line.standing.state
    stripe, word = WORD[state]
    if state == "stands" and not line.signed:
        word = "marked"
    known = joint_torque_words(joint, me.garage.units)
    figure = f"{known}, {joint.figure_from}" if known else "no figure on record"
    offer = look_offer(me, people, hands) if hands is not None else None
    takes, too_much = range_words(joint, me.garage.units)
    return JointRow(
        joint,
        ", ".join(filter(None, [joint.thread, joint.klass, figure])),
        stripe,
        word,
        takes,
        too_much,
        f"It waits for {offer.waits}." if offer else line.standing.words,
        last_words(line, me.garage.units, at),
        offer is not None and offer.mine,
        offer.writes if offer else "",
        mark.pk if mark else None,
    )


def last_words(line: JointLine, system: str, at: datetime) -> str:
    """`110 N·m, Tove 18:20, the big wrench; signed by Ines. Cold.`; empty without a mark."""
    mark = line.mark
    if mark is None:
        return ""
    told = torque_words(mark.torque_mnm, system) if mark.torque_mnm else "by hand"
    told += f", {mark.by} {clock_words(mark.at, at)}"
    told += f", {mark.wrench}" if mark.wrench else ""
    if line.signed:
        told += f"; signed by {look_words(line.signed)}"
    return f"{told}. {mark.note}" if mark.note else told
