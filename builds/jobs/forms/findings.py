"""The form of something found."""

from django import forms


class FoundForm(forms.Form):
    line = forms.CharField(label="What you found", max_length=120)
    hurts = forms.BooleanField(label="Someone could get hurt", required=False)
