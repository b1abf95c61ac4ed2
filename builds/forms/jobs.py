"""The form of a job: a few fields first, the rest behind a fold."""

from typing import Any

from django import forms

from builds.engine.ranks import RANKS, refuse_rank
from builds.engine.systems import KINDS, SYSTEMS
from builds.models import Job
from builds.models.job import MOST_MINUTES
from garage.engine.words import duration_words
from garage.forms.durations import DurationField
from garage.models import Garage, Skill, Station

FIGURES = ("low", "likely", "high")
FIRST = ["title", "systems", *FIGURES, "skill", "stations"]


def figures_in_order(form: forms.Form, names: tuple[str, str, str] = FIGURES) -> None:
    """Put an error at the field where three figures of work run backwards."""
    low, likely, high = (form.cleaned_data.get(name) for name in names)
    if low is not None and likely is not None and low > likely:
        form.add_error(
            names[0],
            f"If it goes well it takes no longer than the likely {duration_words(likely)}.",
        )
    if likely is not None and high is not None and high < likely:
        form.add_error(
            names[2],
            f"If it fights back it takes no less than the likely {duration_words(likely)}.",
        )


class JobForm(forms.Form):
    title = forms.CharField(max_length=120)
    systems = forms.MultipleChoiceField(
        label="What it touches",
        choices=[(slug, system.label) for slug, system in SYSTEMS.items()],
        widget=forms.CheckboxSelectMultiple,
        required=False,
        help_text="steering, brakes, suspension, wheels, restraint, seat, fuel, fire and cage make"
        " it a safety job",
    )
    low = DurationField(
        label="If it goes well",
        most=MOST_MINUTES,
        initial=30,
        help_text="such as 1.5, 1:30 or 90 min",
    )
    likely = DurationField(label="Likely", most=MOST_MINUTES, initial=60)
    high = DurationField(label="If it fights back", most=MOST_MINUTES, initial=120)
    skill = forms.ModelChoiceField(
        queryset=Skill.objects.none(), required=False, empty_label="anybody"
    )
    stations = forms.ModelMultipleChoiceField(
        queryset=Station.objects.none(), required=False, widget=forms.CheckboxSelectMultiple
    )

    rank = forms.ChoiceField(
        choices=[("", "as what it touches says"), *RANKS.items()], required=False
    )
    lowered_because = forms.CharField(
        label="Why it may rank below safety",
        max_length=200,
        required=False,
        help_text="printed on the sheet",
    )
    hands = forms.IntegerField(label="Hands at once", min_value=0, max_value=9, initial=1)
    splits = forms.BooleanField(
        label="May stop and go on another evening", required=False, initial=True
    )
    earliest_at = forms.DateTimeField(
        label="Not before", required=False, widget=forms.DateTimeInput({"type": "datetime-local"})
    )
    pinned_at = forms.DateTimeField(
        label="Starts exactly at",
        required=False,
        widget=forms.DateTimeInput({"type": "datetime-local"}),
    )
    left_minutes = DurationField(
        label="Left to do, if you know better", most=MOST_MINUTES, required=False
    )
    weight = forms.IntegerField(
        label="Weight among the wanted", min_value=1, max_value=9, initial=1
    )
    kinds = forms.MultipleChoiceField(
        label="Kind of work",
        choices=[(slug, kind.label) for slug, kind in KINDS.items()],
        widget=forms.CheckboxSelectMultiple,
        required=False,
        help_text="says which readings no longer hold afterwards, and which cautions to show",
    )
    note = forms.CharField(max_length=4000, required=False, widget=forms.Textarea({"rows": 4}))

    def __init__(self, *args: Any, garage: Garage, job: Job | None = None, **kwargs: Any) -> None:
        if job:
            kwargs["initial"] = _initial(job)
        super().__init__(*args, **kwargs)
        self.fields["skill"].queryset = Skill.objects.in_garage(garage)
        self.fields["stations"].queryset = Station.objects.in_garage(garage)

    @property
    def first(self) -> list[Any]:
        return [self[name] for name in FIRST]

    @property
    def rest(self) -> list[Any]:
        return [field for field in self if field.name not in FIRST]

    @property
    def rest_open(self) -> bool:
        return any(field.errors for field in self.rest)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        figures_in_order(self)
        rank, systems = cleaned.get("rank"), cleaned.get("systems")
        if rank and systems is not None:
            wrong = refuse_rank(rank, systems, cleaned.get("lowered_because", ""))
            if wrong:
                self.add_error("lowered_because", wrong)
        return cleaned

    def written(self) -> dict[str, Any]:
        """What `actions.jobs.add` and `change` take."""
        data = dict(self.cleaned_data)
        data["work"] = tuple(data.pop(name) for name in FIGURES)
        data["stations"] = {station: 1 for station in data["stations"]}
        return data


def _initial(job: Job) -> dict[str, Any]:
    own = (
        "title",
        "systems",
        "skill",
        "rank",
        "lowered_because",
        "hands",
        "splits",
        "weight",
        "kinds",
        "note",
        "earliest_at",
        "pinned_at",
        "left_minutes",
    )
    return {
        **{name: getattr(job, name) for name in own},
        "low": job.low_minutes,
        "likely": job.likely_minutes,
        "high": job.high_minutes,
        "stations": [use.station_id for use in job.uses.all()],
    }


class ReasonForm(forms.Form):
    reason = forms.CharField(max_length=200, label="Why")


class FoundForm(forms.Form):
    line = forms.CharField(max_length=120, label="What you found")
    hurts = forms.BooleanField(label="Someone could get hurt", required=False)
