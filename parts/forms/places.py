"""The form of a place."""

from typing import Any

from django import forms

from garage.forms.edits import EditForm
from parts.models import Place
from parts.models.place import WALK_ORDER

# A person makes these; the others every garage has of itself.
OWN_KINDS = ("shelf", "bin", "van", "trailer", "someone")


class PlaceForm(EditForm, forms.Form):
    kind = forms.ChoiceField(label="What it is", choices=[(kind, Place.Kind(kind).label) for kind in OWN_KINDS])
    name = forms.CharField(max_length=60)
    walk_order = forms.IntegerField(
        label="Order on the way round",
        min_value=0,
        max_value=9999,
        initial=WALK_ORDER,
        help_text="Pull lists walk from low to high.",
    )

    def __init__(self, *args: Any, place: Place | None = None, **kwargs: Any) -> None:
        if place:
            kwargs["initial"] = {"name": place.name, "walk_order": place.walk_order}
        super().__init__(*args, edits=place is not None, **kwargs)
        if place:
            del self.fields["kind"]
