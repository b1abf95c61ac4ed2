"""What a phone sends from the paddock: one write, narrowed."""

from datetime import datetime, timedelta

from django import forms

from builds.paddock.engine import Write
from garage.actions.refused import Refused

FAST_CLOCK = timedelta(minutes=10)
OLDEST = timedelta(days=30)


class WriteForm(forms.Form):
    item = forms.RegexField(r"\A[a-z]{4,8}-[0-9]{1,18}(-[0-9]{1,18})?\Z", max_length=50)
    to = forms.RegexField(r"\A[a-z_]{2,12}\Z", max_length=12)
    seen = forms.IntegerField(min_value=0, max_value=10**9)
    at = forms.DateTimeField(required=False)
    value = forms.CharField(max_length=60, required=False)
    note = forms.CharField(max_length=200, required=False)
    unit = forms.CharField(max_length=12, required=False)
    wrench = forms.CharField(max_length=60, required=False)

    def write(self, now: datetime) -> Write:
        """Raises Refused with what is wrong; without a time of its own a write is of now."""
        if not self.is_valid():
            field, wrong = next(iter(self.errors.items()))
            raise Refused(f"{field}: {wrong[0]}")
        sent = self.cleaned_data
        at = sent["at"] or now
        if at > now + FAST_CLOCK:
            raise Refused("The clock of this phone runs ahead of the garage's: set it right.")
        if at < now - OLDEST:
            raise Refused("This was tapped more than a month ago: look again, then tap it anew.")
        fields = {name: sent[name] for name in ("item", "to", "seen", "value", "note", "unit", "wrench")}
        return Write(at=min(at, now), **fields)
