"""A job's history in words: who did what, when and for how long, and what is to be signed."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from builds.steps.pages.looks import LookOffer, signed_words
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.span import Span
from builds.work.models.states import State
from garage.clock import clock_words
from garage.engine.words import listed_in_words, work_words
from garage.models import Membership

DID = {
    State.OPEN: "opened again",
    State.IN_HAND: "in hand",
    State.WAITING: "put down",
    State.HELD: "held",
    State.DONE: "finished",
    State.SIGNED: "signed",
    State.DROPPED: "dropped",
}


@dataclass(frozen=True)
class LogLine:
    """`how_long` is empty where only the moment matters."""

    when: str
    did: str
    who: str
    how_long: str = ""
    note: str = ""


@dataclass(frozen=True)
class PointLine:
    """A hold point: signed by whom and when, or who may sign it; `asks` for a value, `writes` as of a LookOffer."""

    pk: int
    what: str
    signed: str = ""
    seen: str = ""
    may_sign: bool = False
    waits_for: str = ""
    reached: bool = False
    asks: str = ""
    answer: str = ""
    writes: str = ""
    sign_in: tuple[str, str] | None = None


def names(people: Iterable[Membership]) -> str:
    """`Ines`, `Ines and Tove`, `Ines, Tove and Priya`."""
    return listed_in_words([member.name for member in people] or [""])


def log_lines(job: Job, spans: Iterable[Span], at: datetime, cuts: Iterable[Link] = ()) -> list[LogLine]:
    """Oldest first, beginning with whoever wrote the job down; `cuts` are links that it no longer waits by."""
    lines = [(job.made_at, LogLine(clock_words(job.made_at, at), "written down", str(job.made_by)))]
    lines += [(span.from_at, log_line(span, at)) for span in spans if not span.passed_through]
    lines += [(link.cut_at, cut_line(link, link.cut_at, at)) for link in cuts if link.cut_at]
    return [line for _, line in sorted(lines, key=lambda timed: timed[0])]


def cut_line(link: Link, cut_at: datetime, at: datetime) -> LogLine:
    did = f"cut the link to “{link.before}”"
    return LogLine(clock_words(cut_at, at), did, str(link.cut_by), note=link.cut_because)


def log_line(span: Span, at: datetime) -> LogLine:
    how_long = ""
    if span.state in (State.IN_HAND, State.HELD):
        minutes = int(((span.until_at or at) - span.from_at).total_seconds() // 60)
        how_long = work_words(minutes) + ("" if span.until_at else " so far")
    return LogLine(
        clock_words(span.from_at, at),
        DID[State.DONE if span.finished else State(span.state)],
        who_did(span),
        how_long,
        span.note,
    )


def who_did(span: Span) -> str:
    """Whose hands worked or finished it, whoever tapped; of every other step who took it."""
    hands = span.people if span.state == State.IN_HAND or span.finished else []
    return names(hands) if hands else str(span.by)


def point_words(point: HoldPoint, at: datetime) -> str:
    """As a sheet has it: who signed it and with what value, else what it asks for."""
    if not point.signed_at:
        return f"asks for {point.asked}" if point.asks else ""
    return ". ".join(filter(None, [f"signed: {signed_words(point, at)}", point.answer]))


def point_lines(points: Iterable[HoldPoint], offer: LookOffer, at: datetime) -> list[PointLine]:
    """`offer` says who may look at the work of their job."""
    return [
        PointLine(point.pk, point.what, signed_words(point, at), point.seen, answer=point.answer)
        if point.signed_at
        else PointLine(
            point.pk,
            point.what,
            may_sign=point.job.state != State.OPEN and offer.mine,
            waits_for=offer.waits,
            reached=point.job.state != State.OPEN,
            asks=point.asked,
            writes=offer.writes,
            sign_in=offer.sign_in if point.job.state != State.OPEN else None,
        )
        for point in points
    ]
