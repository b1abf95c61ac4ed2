"""The form of a share link, and of what is asked before it shows anything."""

from collections.abc import Iterable
from typing import Any

from django import forms

from garage.actions.shares import MOST_DAYS
from garage.models import Photo


class ShareForm(forms.Form):
    """`photos` are those that can be chosen."""

    label = forms.CharField(label="For whom", max_length=60, required=False, help_text="only you see this")
    days = forms.IntegerField(label="Lasts, days", min_value=1, max_value=MOST_DAYS, initial=14)
    parts = forms.BooleanField(
        label="Parts we are looking for",
        required=False,
        help_text="whoever reads it can say that he has one",
    )
    phrase = forms.CharField(
        label="Pass-phrase",
        min_length=6,
        max_length=100,
        required=False,
        help_text="asked before anything is shown; tell it by another way than the link",
    )
    photos = forms.TypedMultipleChoiceField(coerce=int, required=False, widget=forms.CheckboxSelectMultiple)

    def __init__(self, *args: Any, photos: Iterable[Photo], **more: Any) -> None:
        super().__init__(*args, **more)
        self.pictures = {str(photo.pk): photo for photo in photos}
        self.fields["photos"].choices = [(key, str(photo)) for key, photo in self.pictures.items()]

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
