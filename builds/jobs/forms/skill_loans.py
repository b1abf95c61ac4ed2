"""The form in which a skill is lent."""

from typing import Any

from django import forms

from builds.work.models.job import Job
from garage.models import Membership


class SkillLoanForm(forms.Form):
    member = forms.ModelChoiceField(
        Membership.objects.none(),
        label="Who may do this job",
        error_messages={"invalid_choice": "Choose somebody of this garage."},
    )

    def __init__(self, *args: Any, job: Job, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        hands = Membership.objects.in_garage(job.vehicle.garage).hands().working()
        if job.skill_id:
            hands = hands.exclude(skills=job.skill_id)
        self.fields["member"].queryset = hands.select_related("person")
