"""The form of a move: how many, from where, to where, for which job."""

from typing import Any

from django import forms

from builds.models import Job
from parts.engine.ledger import VERBS
from parts.models import Balance, Part, Place
from parts.models.part import MOST

WORDS = {
    "receive": "Receive",
    "put": "Put elsewhere",
    "pull": "Pull",
    "fit": "Fit",
    "take_off": "Take off",
    "lend": "Lend",
    "return": "Take back",
    "repair": "Send for repair",
    "scrap": "Scrap",
}


class HeldChoice(forms.ModelChoiceField):
    """Places with what they hold of the part."""

    held: dict[int, int]

    def label_from_instance(self, obj: Place) -> str:
        has = self.held.get(obj.pk)
        return f"{obj} ({has} there)" if has else str(obj)


class MoveForm(forms.Form):
    quantity = forms.IntegerField(label="How many", min_value=1, max_value=MOST, initial=1)
    source = HeldChoice(queryset=Place.objects.none(), label="From")
    target = HeldChoice(queryset=Place.objects.none(), label="To")
    job = forms.ModelChoiceField(
        queryset=Job.objects.none(), required=False, label="For the job", empty_label="no job"
    )
    unknown_because = forms.CharField(
        label="Why a part of unknown history may be fitted", max_length=150, required=False
    )
    why = forms.CharField(label="Note", max_length=200, required=False)

    def __init__(self, *args: Any, part: Part, verb: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        row = VERBS[verb]
        places = Place.objects.in_garage(part.garage_id)
        rows = Balance.objects.filter(part=part, outside=False, quantity__gt=0)
        held = dict(rows.values_list("place_id", "quantity"))
        source = places.filter(kind__in=row.sources)
        if verb != "receive":
            source = source.filter(pk__in=held)
        for name, queryset in (("source", source), ("target", places.filter(kind__in=row.targets))):
            field = self.fields[name]
            field.queryset, field.held = queryset.order_by("walk_order", "name"), held
            only = list(field.queryset[:2])
            if len(only) == 1:
                field.initial = only[0]
        self.fields["job"].queryset = (
            Job.objects.in_garage(part.garage_id).open().select_related("vehicle")
        )
        self.fields["job"].label_from_instance = lambda job: f"{job.vehicle}: {job}"
        if verb not in ("pull", "fit", "take_off"):
            del self.fields["job"]
        if verb != "fit" or part.condition != Part.Condition.UNKNOWN:
            del self.fields["unknown_because"]
        if part.single:
            self.fields["quantity"].widget = forms.HiddenInput()


class CountForm(forms.Form):
    place = forms.ModelChoiceField(queryset=Place.objects.none(), label="Where")
    found = forms.IntegerField(label="How many are there", min_value=0, max_value=MOST)
    why = forms.CharField(label="Note", max_length=200, required=False)

    def __init__(self, *args: Any, part: Part, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kinds = VERBS["count"].sources - {"counted"}
        self.fields["place"].queryset = Place.objects.in_garage(part.garage_id).filter(
            kind__in=kinds
        )
