"""Who looked and who may look, in words."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.steps.engine.looks import Eyes, gives_up, refuse_look, waits_for, wants_look, who_can_look
from builds.steps.facts.looks import eyes_of, hands_looked_at, hands_of, wants_eyes, workers_of
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from garage.clock import clock_words
from garage.models import Membership

SAYS_WHO, FROM_OUTSIDE = "Say who looked", "Say who from outside looked"


@dataclass(frozen=True)
class LookOffer:
    """What whoever reads the page may do: `mine` is his own look, `refused` says why it is not.

    `waits_for` names those who may look; `writes` is the button with which he writes down who looked, empty where
    nobody's look is his to write down: whoever looks then signs in and signs. `lets_in` are those of them (pk and
    name) whom he, as the owner, lets in.
    """

    waits_for: str
    refused: str | None
    writes: str
    lets_in: tuple[tuple[int, str], ...] = ()

    @property
    def waits(self) -> str:
        """`Tove or Priya`; where the reader can write down none of them, that they sign in for it."""
        return self.waits_for if self.writes == SAYS_WHO else f"{self.waits_for}, who signs in for it"

    @property
    def sign_in(self) -> tuple[str, str] | None:
        """Where an owner makes the link with which whoever looks signs in, in words and with its address."""
        if not self.lets_in:
            return None
        (pk, name), *others = self.lets_in
        if others:
            return "People: sign-in links", reverse("person_list")
        return f"{name}: sign-in link", reverse("person_page", args=[pk])

    @property
    def mine(self) -> bool:
        return self.refused is None


def look_offer(me: Membership, people: list[Eyes], workers: Collection[int]) -> LookOffer:
    """`people` are all hands of the garage, `workers` (pk) those who worked on what is looked at."""
    mine, everybody = eyes_of(me), {member.id for member in people}
    refused = refuse_look(mine, mine, workers, everybody, safety=True)
    others = (who for who in people if not refuse_look(who, mine, workers, everybody, safety=True))
    outside = refuse_look(mine, mine, workers, everybody, safety=True, outsider="somebody") is None
    writes = SAYS_WHO if any(others) else FROM_OUTSIDE if outside else ""
    able = who_can_look(people, workers) if mine.owner and refused and writes != SAYS_WHO else ()
    return LookOffer(waits_for(people, workers), refused, writes, tuple((who.id, who.name) for who in able))


def leaves_look(job: Job) -> bool:
    """Whether somebody else looks at what it leaves, hold points of its own aside."""
    return wants_eyes(job) and wants_look(safety=True, of_recipe=bool(job.recipe), kinds=job.kinds, covered=False)


def given_up(job: Job, me: Membership) -> str:
    """What the reader gives up by finishing what another has in hand; empty where he gives up nothing."""
    if not leaves_look(job) and not HoldPoint.objects.filter(job=job, signed_at=None).exists():
        return ""
    workers, did = hands_looked_at([job])[job.pk], workers_of([job.pk])[job.pk]
    return gives_up(eyes_of(me), hands_of(me.garage_id), workers, did)


def looked_words(by: Membership, outsider: str, written_by: Membership | None, *, alone: bool, when: str = "") -> str:
    """`Ines, 17:00, alone`; `Tove, 17:00, written down by Ines`; `Pella (from outside), 17:00, ...`."""
    who = f"{outsider} (from outside)" if outsider else str(by)
    written = f"written down by {written_by}" if written_by and (outsider or written_by != by) else ""
    return ", ".join(filter(None, [who, when, "alone" if alone else "", written]))


def signed_words(row: HoldPoint | Job, at: datetime) -> str:
    """Empty while nobody has signed."""
    if row.signed_at is None:
        return ""
    return signer_words(row, clock_words(row.signed_at, at))


def signer_words(row: HoldPoint | Job, when: str = "") -> str:
    """Who signed; empty while nobody has."""
    if row.signed_by is None:
        return ""
    if isinstance(row, HoldPoint):
        return looked_words(row.signed_by, row.outsider, row.written_by, alone=row.alone, when=when)
    return looked_words(row.signed_by, row.signed_outsider, row.signed_written_by, alone=row.signed_alone, when=when)
