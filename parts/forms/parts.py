"""Forms of parts, and what is looked for among them."""

from collections.abc import Sequence
from typing import Any, ClassVar

from django import forms

from garage.access import refuse_costs
from garage.forms.edits import EditForm
from garage.forms.money import MoneyField
from garage.forms.systems import SystemsField
from garage.models import Garage, Membership
from parts.models import Part, Place
from parts.models.part import MOST

OWN = ("name", "number", "single", "one_use", "unit", "condition", "systems", "provenance",
       "supplier", "cost_minor", "low_level", "note")  # fmt: skip
FIRST = ("name", "condition", "single", "systems")


class PartForm(EditForm, forms.Form):
    """`seen_first` are those of its fields that stand above the fold."""

    seen_first: ClassVar[Sequence[str]] = FIRST

    name = forms.CharField(label="What it is", max_length=120)
    condition = forms.ChoiceField(
        choices=Part.Condition.choices,
        initial="unknown",
        help_text="No history is unknown, not good.",
    )
    single = forms.BooleanField(
        label="One of a kind",
        required=False,
        help_text="It has a history of its own and is in one place at a time.",
    )
    systems = SystemsField(
        label="Part of", help_text="What is taken off steering, brakes and the like leaves a car unsafe."
    )
    number = forms.CharField(label="Maker's or own number", max_length=60, required=False)
    provenance = forms.CharField(label="Where it came from", max_length=200, required=False)
    one_use = forms.BooleanField(
        label="Never used twice",
        required=False,
        help_text="Stretch bolts, nyloc nuts, split pins, crush washers, gaskets.",
    )
    unit = forms.ChoiceField(label="Counted in", choices=Part.Unit.choices)
    supplier = forms.CharField(label="Bought from", max_length=80, required=False)
    cost_minor = MoneyField(label="Cost of one", required=False)
    low_level = forms.IntegerField(label="Buy when fewer than", min_value=0, max_value=MOST, required=False)
    note = forms.CharField(max_length=2000, required=False, widget=forms.Textarea({"rows": 3}))

    def __init__(self, *args: Any, member: Membership, part: Part | None = None, **kwargs: Any) -> None:
        if part:
            kwargs["initial"] = {name: getattr(part, name) for name in OWN}
        super().__init__(*args, edits=part is not None, **kwargs)
        self.fields["cost_minor"].unit = member.garage.currency
        if refuse_costs(member):
            del self.fields["cost_minor"]

    @property
    def first(self) -> list[Any]:
        return [self[name] for name in self.seen_first]

    @property
    def rest(self) -> list[Any]:
        return [field for field in self if field.name not in self.seen_first]

    @property
    def rest_open(self) -> bool:
        return any(field.errors for field in self.rest)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("single") and cleaned.get("unit") not in (None, "piece"):
            self.add_error("unit", "One of a kind is counted in pieces.")
        if cleaned.get("single") and cleaned.get("one_use"):
            self.add_error("one_use", "What has a history of its own is used more than once.")
        return cleaned


class SearchForm(forms.Form):
    """What is looked for on the shelf: plain words, matched as they are."""

    q = forms.CharField(label="Look for", max_length=100, required=False, widget=forms.TextInput({"type": "search"}))
    place = forms.ModelChoiceField(
        label="Where", queryset=Place.objects.none(), required=False, empty_label="everywhere"
    )
    low = forms.BooleanField(label="Only what runs low", required=False)

    def __init__(self, *args: Any, garage: Garage, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["place"].queryset = Place.objects.in_garage(garage).inside()

    def asked(self) -> tuple[str, Place | None, bool]:
        """Words, place and whether low; what cannot be read is not asked."""
        self.full_clean()
        sought = self.cleaned_data
        return sought.get("q", ""), sought.get("place"), sought.get("low", False)
