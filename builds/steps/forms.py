"""Who looked: somebody of the garage, or somebody from outside whom the owner names."""

from collections.abc import Collection, Iterable
from typing import Any

from django import forms

from builds.steps.engine.looks import refuse_look
from builds.steps.facts.looks import eyes_of, hands_of
from builds.work.models.job import NAME_MOST
from garage.access import OWNER
from garage.models import Membership


class LookForm(forms.Form):
    """One tap says nothing: then whoever taps looked. Only those are offered who may have."""

    who = forms.ModelChoiceField(
        label="Who looked at it",
        queryset=Membership.objects.none(),
        required=False,
        empty_label="me",
        error_messages={"invalid_choice": "Choose somebody of this garage."},
    )
    outsider = forms.CharField(
        label="Or who from outside",
        max_length=NAME_MOST,
        required=False,
        help_text="a name, when somebody looked who is not of this garage; it is marked so",
    )

    def __init__(
        self, *args: Any, member: Membership, workers: Collection[int] = (), safety: bool = True, **kwargs: Any
    ) -> None:
        """`workers` are those (pk) whose hands were on it."""
        super().__init__(*args, **kwargs)
        signers = Membership.objects.visible_to(member).signers().select_related("person")
        self.fields["who"].queryset = signers
        self.fields["who"].choices = offered_eyes(signers, member, workers, safety=safety)
        if member.role != OWNER:
            del self.fields["outsider"]


def offered_eyes(
    signers: Iterable[Membership], me: Membership, workers: Collection[int], *, safety: bool
) -> list[tuple[int | str, str]]:
    """Whoever may have looked at the work of these `workers` (pk), as `me` writes it down."""
    everybody = {member.id for member in hands_of(me.garage_id)}
    mine = eyes_of(me)
    may = [who for who in signers if not refuse_look(eyes_of(who), mine, workers, everybody, safety=safety)]
    nothing = "me" if me in may else "Choose" if may else "nobody: whoever looks signs in and signs"
    return [("", nothing), *((who.pk, str(who)) for who in may if who != me)]
