"""A line about something found, photos of it, and whether it could hurt someone."""

from django import forms

from builds.photos.forms import PicturesForm


class FoundForm(PicturesForm):
    field_order = ("line", "hurts", "camera", "pictures")

    line = forms.CharField(label="What you found", max_length=120)
    hurts = forms.BooleanField(label="Could hurt someone", required=False, help_text="then it is safety work")
