"""Forms of photos: some pictures at once with what they show, and those words alone."""

from typing import Any

from django import forms
from django.core.files.uploadedfile import UploadedFile

from garage.forms.edits import EditForm
from garage.pictures import READS_HEIC

MOST_AT_ONCE = 20
ANY_PICTURE = {"accept": "image/*"}


class SeveralInput(forms.FileInput):
    allow_multiple_selected = True


class PicturesField(forms.FileField):
    """Cleans to the list of files that were sent."""

    widget = SeveralInput

    def clean(self, data: Any, initial: Any = None) -> list[UploadedFile]:
        files = data if isinstance(data, list) else [data]
        return [file for file in files if file]


def caption_field() -> forms.CharField:
    return forms.CharField(
        label="What it shows",
        max_length=200,
        required=False,
        help_text="Read aloud to whoever cannot see it.",
    )


class PicturesForm(forms.Form):
    """Mixed into forms that take pictures. Cleans `sent` to the files; whether they are pictures is seen when they
    are read.
    """

    camera = PicturesField(
        label="Take a photo",
        required=False,
        widget=forms.FileInput({**ANY_PICTURE, "capture": "environment"}),
    )
    pictures = PicturesField(
        label="Or choose some",
        required=False,
        widget=SeveralInput(ANY_PICTURE),
        help_text=f"JPEG, PNG{', HEIC' if READS_HEIC else ''} or WebP, 12 MB each, {MOST_AT_ONCE} at once at most."
        " Where and when they were taken is not kept.",
    )

    def clean(self) -> dict[str, Any]:
        cleaned: dict[str, Any] = super().clean() or {}
        sent = [*cleaned.pop("camera", []), *cleaned.pop("pictures", [])]
        if len(sent) > MOST_AT_ONCE:
            self.add_error("pictures", f"{len(sent)} at once are too many: {MOST_AT_ONCE} go.")
        return {**cleaned, "sent": sent}


class PhotoForm(PicturesForm):
    """Pictures, at least one of them, and what they show."""

    caption = caption_field()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not cleaned["sent"]:
            self.add_error("camera", "Take a photo, or choose one.")
        return cleaned


class CaptionForm(EditForm, forms.Form):
    caption = caption_field()
