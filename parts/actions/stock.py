"""Every way a part moves: one line in the ledger and two balances, together or not at all."""

from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import F

from garage.actions.refused import Refused
from garage.models import Membership
from parts.actions.places import house_place
from parts.engine.ledger import AT_HAND, one_use_refusal, refusal
from parts.engine.words import amount_words
from parts.models import Balance, Move, Part, Place
from parts.models.part import MOST

UNDO_FOR = timedelta(hours=12)


def _locked(part: Part) -> Part:
    """The part's row, held until the transaction ends, so that two movers take turns."""
    return Part.objects.select_for_update().get(pk=part.pk)


def _shift(part: Part, place: Place, quantity: int) -> None:
    row, _ = Balance.objects.get_or_create(part=part, place=place, defaults={"outside": place.outside})
    if quantity < 0 and not place.outside and row.quantity + quantity < 0:
        held = amount_words(part.unit, row.quantity) if row.quantity else "none"
        raise Refused(f"{place} has {held} of {part} left, not {-quantity}.", "quantity")
    Balance.objects.filter(pk=row.pk).update(quantity=F("quantity") + quantity)


def _there_already(part: Part) -> str | None:
    """Why one of a kind cannot come from outside: it is somewhere inside."""
    balance = Balance.objects.held().filter(part=part).select_related("place").first()
    return f"{part} is one of a kind, and is at {balance.place} already." if balance else None


def _write(line: Move) -> Move:
    """The line in the ledger, and the two balances that it changes."""
    _shift(line.part, line.source, -line.quantity)
    _shift(line.part, line.target, line.quantity)
    line.save(force_insert=True)
    return line


@transaction.atomic
def move(
    part: Part,
    verb: str,
    quantity: int,
    source: Place,
    target: Place,
    *,
    by: Membership,
    at: datetime,
    why: str = "",
) -> Move:
    """Move so much of a part by one of the verbs of `parts.engine.ledger`. Raises Refused."""
    part = _locked(part)
    if part.garage_id != source.garage_id or part.garage_id != target.garage_id:
        raise Refused("The part and both places must be in the same garage.")
    if quantity < 1:
        raise Refused("Move at least one.", "quantity")
    if quantity > MOST:
        raise Refused("That is more than a shelf holds.", "quantity")
    if source.pk == target.pk:
        raise Refused(f"{part} is at {source} already.", "target")
    said = refusal(verb, source.kind, target.kind)
    if said is None and part.one_use and source.kind == Place.Kind.CAR:
        said = one_use_refusal(part.name, verb, target.kind)
    if said is None and part.single and verb == "receive":
        said = _there_already(part)
    if said is None and part.single and quantity > 1:
        said = f"{part} is one of a kind: there is only one to move."
    if said:
        raise Refused(said)
    ends = {"source": source, "target": target}
    return _write(Move(part=part, verb=verb, quantity=quantity, **ends, by=by, at=at, why=why))


@transaction.atomic
def count(part: Part, place: Place, counted: int, *, by: Membership, at: datetime, why: str = "") -> Move | None:
    """A stock-take: write the difference between what was counted and what the ledger holds."""
    part = _locked(part)
    if place.kind not in AT_HAND:  # what is on a car does not go missing there: it is pulled, or taken off
        raise Refused(f"{place} cannot be counted.", "place")
    if counted < 0:
        raise Refused("A count is zero or more.", "counted")
    if part.single and counted > 1:
        raise Refused(f"{part} is one of a kind: there cannot be {counted}.", "counted")
    row = Balance.objects.filter(part=part, place=place).first()
    short = counted - (row.quantity if row else 0)
    if short == 0:
        return None
    if part.single and short > 0 and (said := _there_already(part)):
        raise Refused(said, "counted")
    books = house_place(part.garage, Place.Kind.COUNTED)
    source, target = (books, place) if short > 0 else (place, books)
    ends = {"source": source, "target": target}
    return _write(Move(part=part, verb="count", quantity=abs(short), **ends, by=by, at=at, why=why))


@transaction.atomic
def reverse(mistake: Move, *, by: Membership, at: datetime, why: str = "") -> Move:
    """Undo a move by its opposite; each can be reversed once, and a reversal stands."""
    part = _locked(mistake.part)
    if mistake.reverses_id:
        raise Refused("This move undoes another: move the part again instead.")
    if Move.objects.filter(reverses=mistake).exists():
        raise Refused("This move was undone already.")
    if part.single and mistake.target.outside and (said := _there_already(part)):
        raise Refused(said)
    return _write(
        Move(
            part=part,
            verb="reverse",
            quantity=mistake.quantity,
            source=mistake.target,
            target=mistake.source,
            by=by,
            at=at,
            why=why or f"undoes {mistake.verb}",
            reverses=mistake,
        )
    )
