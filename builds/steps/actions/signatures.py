"""That somebody looked, written down: who, and who says so."""

from collections.abc import Collection
from dataclasses import dataclass

from builds.steps.engine.looks import refuse_look
from builds.steps.engine.outsiders import refuse_outsider
from builds.steps.facts.looks import eyes_of, hands_of
from garage.actions.refused import Refused
from garage.models import Membership


@dataclass(frozen=True)
class Look:
    """`who` looked and `by` wrote it down; of an `outsider` both are the owner who names him.

    `alone` when whoever looked had worked on it, since all hands of the garage had.
    """

    who: Membership
    by: Membership
    outsider: str = ""
    alone: bool = False

    @property
    def note(self) -> str:
        """What the log says besides whose tap it was."""
        if self.outsider:
            return f"{self.outsider}, from outside, looked at it"
        if self.alone:
            return "signed alone: everybody here worked on it"
        return f"{self.who} looked at it" if self.who != self.by else ""

    def on_row(self) -> dict[str, object]:
        return {"signed_by": self.who, "written_by": self.by, "outsider": self.outsider, "alone": self.alone}


def look_or_refuse(
    workers: Collection[int],
    *,
    safety: bool,
    garage: int,
    by: Membership,
    who: Membership | None = None,
    outsider: str = "",
) -> Look:
    """The look at work of these `workers` (pk) in that garage (pk), or Refused."""
    outsider = " ".join(outsider.split())
    if outsider and who not in (None, by):
        raise Refused("Either somebody of this garage looked, or somebody from outside: say one.", "outsider")
    who = who or by
    if who.garage_id != garage:
        raise Refused(f"{who} cannot sign here: choose an owner or a helper of this garage.", "who")
    if outsider and (wrong := refuse_outsider(outsider, _names_of(garage))):
        raise Refused(wrong, "outsider")
    if not outsider and _is_namesake(who, workers):
        line = f"Somebody called {who} worked on this: somebody else has to look at it and sign."
        raise Refused(line, "who")
    everybody = {member.id for member in hands_of(garage)}
    refusal = refuse_look(eyes_of(who), eyes_of(by), workers, everybody, safety=safety, outsider=outsider)
    if refusal:
        raise Refused(refusal, "outsider" if outsider else "who")
    return Look(who, by, outsider, alone=not outsider and who.pk in workers)


def _is_namesake(who: Membership, workers: Collection[int]) -> bool:
    """Whoever left and was written down anew is the one who worked on it."""
    hands = Membership.objects.filter(pk__in={*workers} - {who.pk}).exclude(left_at=None)
    return hands.filter(person__name__iexact=who.name).exists()


def _names_of(garage: int) -> list[str]:
    """Of all members, also of those who left: their hands may have been on it."""
    return list(Membership.objects.in_garage(garage).values_list("person__name", flat=True))
