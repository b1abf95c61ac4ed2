"""A list of jobs, pasted or typed, a line a job."""

from typing import Any

from django import forms

from builds.jobs.engine.pasted import PastedList, read_list
from builds.steps.actions.jobs import refuse_lowering
from builds.work.models.job import MOST_MINUTES
from garage.models import Membership, Vehicle


class PasteForm(forms.Form):
    """`list` is what the lines say, once it is valid."""

    lines = forms.CharField(
        label="One job a line",
        max_length=20_000,
        widget=forms.Textarea({"rows": 12}),
        help_text=(
            "Such as: New front pads; 1:30; Brakes; needed. Only the title must be there. Columns may come from a "
            "spreadsheet, and a length may stand at the end of a line: Bleed the brakes 45 min. A line may wait for "
            "another one: Fit the seat (2h) after weld the mounts. What is ticked as done, [x], is left out."
        ),
        error_messages={"required": "Paste the list, or type one job a line."},
    )

    def __init__(self, *args: Any, vehicle: Vehicle, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.vehicle = vehicle

    def clean_lines(self) -> str:
        text: str = self.cleaned_data["lines"]
        try:
            self.list: PastedList = read_list(text, MOST_MINUTES, car=self.vehicle.name, people=self._people())
        except ValueError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong
        for job in self.list.jobs:
            if wrong := refuse_lowering(job.rank, list(job.systems), "", kinds=job.said.kinds):
                raise forms.ValidationError(f"“{job.title}”: {wrong}")
        if not self.list.jobs and self.list.done:
            raise forms.ValidationError("All of it is ticked as done already: nothing is left to write down.")
        if not self.list.jobs:
            raise forms.ValidationError("Paste the list, or type one job a line.")
        return text

    def _people(self) -> list[str]:
        here = Membership.objects.in_garage(self.vehicle.garage_id).active().select_related("person")
        return [member.name for member in here]
