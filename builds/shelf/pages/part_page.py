"""All that a part's page shows: where it is, what can be done with it, every move."""

from dataclasses import dataclass
from datetime import datetime

from django.core.paginator import Page, Paginator
from django.urls import reverse

from builds.needs.facts.meant import looking_for
from builds.shelf.actions.shelf import undo_for
from builds.shelf.pages.tap import Tap, move_url
from builds.shelf.pages.want_page import WantRow, wants_for
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.owed import Owed
from garage.access import refuse_work_on
from garage.clock import clock_words
from garage.engine.systems import SYSTEM_LABELS
from garage.models import Membership
from parts.engine.ledger import AT_HAND, DONE, VERBS, offered
from parts.engine.words import amount_words
from parts.models import Move, Part, Place
from parts.pages.rows import PartRow, Where, rows_of

AT_ONCE = 3
A_PAGE = 30
UNUSABLE = (Part.Condition.SCRAP, Part.Condition.REPAIR)


@dataclass(frozen=True)
class PartSpot:
    """A place that holds some of it; `taps` the likeliest first."""

    where: Where
    taps: tuple[Tap, ...]
    more: tuple[Tap, ...]


@dataclass(frozen=True)
class MoveLine:
    """One move as written; `undo` (its pk) while it may still be undone."""

    words: str
    way: str
    when: str
    who: str
    why: str
    job: Job | None
    undone: bool
    undo: int | None


@dataclass(frozen=True)
class NamedWant:
    """A want of something called so, of which nobody has said which part it is; `his` to say for whoever reads."""

    need: Need
    his: bool


@dataclass(frozen=True)
class PartPage:
    row: PartRow
    spots: tuple[PartSpot, ...]
    systems: tuple[str, ...]
    owed: tuple[Owed, ...]
    wanted: tuple[WantRow, ...]
    sought: tuple[NamedWant, ...]
    moves: tuple[MoveLine, ...]
    page: Page


def load_part(part: Part, me: Membership, at: datetime, number: str | None) -> PartPage:
    """A fixed number of queries, however often it was moved; `number` is the page of moves."""
    row = rows_of([part], me.garage)[0]
    moves = Move.objects.of(part).select_related(
        "part", "source", "target", "by__person", "reversed_by", "use__job__vehicle"
    )
    page = Paginator(moves.order_by("-pk"), A_PAGE).get_page(number)
    owed = Owed.objects.visible_to(me).open().filter(move__part=part)
    return PartPage(
        row,
        tuple(_spot(part, where) for where in row.where),
        tuple(SYSTEM_LABELS[slug] for slug in part.systems if slug in SYSTEM_LABELS),
        tuple(owed.select_related("vehicle", "job")),
        tuple(wants_for(part, at)),
        tuple(NamedWant(need, refuse_work_on(me, need.job.vehicle) is None) for need in looking_for(part)),
        tuple(_line(move, at) for move in page.object_list),
        page,
    )


def _spot(part: Part, where: Where) -> PartSpot:
    kind = where.place.kind
    taps = [
        Tap(VERBS[verb].button, move_url(part.pk, verb, source=where.place.pk))
        for verb in offered(kind, one_use=part.one_use, fit=part.condition not in UNUSABLE)
    ]
    if kind in AT_HAND:
        url = reverse("part_count", args=[part.pk])
        taps.append(Tap("Count", f"{url}?place={where.place.pk}"))
    return PartSpot(where, tuple(taps[:AT_ONCE]), tuple(taps[AT_ONCE:]))


def _line(move: Move, at: datetime) -> MoveLine:
    undone = hasattr(move, "reversed_by")
    may_undo = not undone and move.reverses_id is None and at - move.at <= undo_for(move)
    use = getattr(move, "use", None)
    return MoveLine(
        f"{amount_words(move.part.unit, move.quantity)} {DONE[move.verb]}",
        _way(move),
        clock_words(move.at, at),
        move.by.name,
        move.why,
        use.job if use else None,
        undone,
        move.pk if may_undo else None,
    )


def _way(move: Move) -> str:
    """From where to where; of what came into the garage nobody said from whom, or out of which drawer of his own."""
    if move.source.kind == Place.Kind.SUPPLIER:
        return f"at {move.target}"
    return f"from {move.source} to {move.target}"
