"""The form of a share link, and of what is asked before it shows anything."""

from collections.abc import Iterable, Mapping
from typing import Any

from django import forms

from garage.actions.shares import MOST_DAYS
from garage.models import Photo


class ShareForm(forms.Form):
    """`photos` are those that can be chosen; `jobs` by key those that a guest may tick."""

    label = forms.CharField(label="For whom", max_length=60, required=False, help_text="only you see this")
    days = forms.IntegerField(label="Lasts, days", min_value=1, max_value=MOST_DAYS, initial=14)
    parts = forms.BooleanField(
        label="Parts we are looking for",
        required=False,
        help_text="whoever reads it can say that he has one",
    )
    calendar = forms.BooleanField(
        label="The days ahead",
        required=False,
        help_text="when something is cured, a part is due, an event is on; not who is in, and not when a car leaves",
    )
    may_comment = forms.BooleanField(
        label="May comment",
        required=False,
        help_text="on the jobs shown, with a name; whoever has the link reads what was said by it",
    )
    phrase = forms.CharField(
        label="Pass-phrase",
        min_length=6,
        max_length=100,
        required=False,
        help_text="asked before anything is shown; tell it by another way than the link",
    )
    may_tick = forms.TypedMultipleChoiceField(
        label="May say that these are done",
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="with a name; it counts once one of you finishes the job. Work for safety is not among them",
    )
    photos = forms.TypedMultipleChoiceField(
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
        help_text="each with its words, and with the day and hour at which it was added",
    )

    def __init__(self, *args: Any, photos: Iterable[Photo], jobs: Mapping[int, str], **more: Any) -> None:
        super().__init__(*args, **more)
        self.pictures = {str(photo.pk): photo for photo in photos}
        self.fields["photos"].choices = [(key, str(photo)) for key, photo in self.pictures.items()]
        self.fields["may_tick"].choices = list(jobs.items())
        if not jobs:
            del self.fields["may_tick"]

    @property
    def choices_seen(self) -> list[tuple[forms.BoundField, Photo]]:
        """Each box with the photo that it is for."""
        return [(box, self.pictures[str(box.data["value"])]) for box in self["photos"]]


class PhraseForm(forms.Form):
    phrase = forms.CharField(label="Pass-phrase", max_length=100)


class HaveForm(forms.Form):
    name = forms.CharField(label="Your name", max_length=60)
    line = forms.CharField(
        label="What you have", max_length=200, help_text="what it is like, and how to reach you: the owner reads it"
    )


class SayForm(forms.Form):
    """A comment of a guest; `jobs` by key are those that the page shows."""

    job = forms.TypedChoiceField(label="On which job", coerce=int)
    name = forms.CharField(label="Your name", max_length=60)
    text = forms.CharField(label="Comment", max_length=500, widget=forms.Textarea({"rows": 2}))

    def __init__(self, *args: Any, jobs: Mapping[int, str], **more: Any) -> None:
        super().__init__(*args, **more)
        self.fields["job"].choices = list(jobs.items())


class TickForm(forms.Form):
    name = forms.CharField(label="Your name", max_length=60)
    line = forms.CharField(label="Anything to add", max_length=200, required=False)
