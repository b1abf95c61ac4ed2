"""The forms of scrutineering: what failed, why something does not apply, a list, a car's things."""

from typing import Any

from django import forms

from builds.scrutineering.engine.check_list import HAS
from builds.scrutineering.models.check import OWN_TEXT_MAX, CheckItem, OrganiserList
from garage.forms.choices import TicksField
from garage.forms.edits import EditForm
from garage.forms.systems import SystemsField
from garage.models import Vehicle


class FailForm(forms.Form):
    note = forms.CharField(
        label="What is wrong",
        max_length=120,
        required=False,
        help_text="becomes the title of a job on the car; the item's own words while it is empty",
    )
    hurts = forms.BooleanField(
        label="Someone could get hurt",
        required=False,
        help_text="makes the job a safety job; on brakes, steering and their like it is one anyway",
    )
    systems = SystemsField(
        label="What it touches",
        help_text="guessed from the organiser's words: take off what is not so, tick what is missing",
    )

    def __init__(self, *args: Any, item: CheckItem, **kwargs: Any) -> None:
        super().__init__(*args, initial={"systems": item.systems}, **kwargs)
        if item.key:  # one of ours says by itself what it touches
            del self.fields["systems"]


class LeaveOutForm(forms.Form):
    note = forms.CharField(label="Why it does not apply", max_length=200, help_text="such as: no turbo on this car")


class HasForm(EditForm, forms.Form):
    tags = TicksField(
        label="This car has",
        choices=[(slug, words.capitalize()) for slug, words in HAS.items()],
        help_text="items that are only for what it lacks are left out of its lists",
    )

    def __init__(self, *args: Any, vehicle: Vehicle, **kwargs: Any) -> None:
        has = getattr(vehicle, "has", None)
        kwargs["initial"] = {"tags": has.tags if has else []}
        super().__init__(*args, **kwargs)


class OrganiserForm(EditForm, forms.Form):
    name = forms.CharField(label="Organiser", max_length=80, help_text="as you write it with the event")
    text = forms.CharField(
        label="The list, line by line",
        max_length=OWN_TEXT_MAX,
        widget=forms.Textarea({"rows": 12}),
        help_text="one thing to look at a line; a line that ends in a colon heads those after it",
    )
    with_shipped = forms.BooleanField(
        label="The general list too",
        required=False,
        initial=True,
        help_text="after these lines come the general ones that are not among them",
    )

    def __init__(self, *args: Any, own: OrganiserList | None = None, **kwargs: Any) -> None:
        if own:
            kwargs["initial"] = {
                "name": own.name,
                "text": own.text,
                "with_shipped": own.with_shipped,
            }
        super().__init__(*args, edits=own is not None, **kwargs)
