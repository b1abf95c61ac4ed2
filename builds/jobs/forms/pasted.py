"""A list of jobs, pasted or typed, a line a job."""

from django import forms

from builds.jobs.engine import PastedList, read_list
from builds.steps.actions.jobs import refuse_lowering
from builds.work.models.job import MOST_MINUTES


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

    def clean_lines(self) -> str:
        text: str = self.cleaned_data["lines"]
        try:
            self.list: PastedList = read_list(text, MOST_MINUTES)
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
