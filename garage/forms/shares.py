"""The form of a share link."""

from django import forms

from garage.actions.shares import MOST_DAYS


class ShareForm(forms.Form):
    label = forms.CharField(label="For whom", max_length=60, required=False, help_text="only you see this")
    days = forms.IntegerField(label="Lasts, days", min_value=1, max_value=MOST_DAYS, initial=14)
