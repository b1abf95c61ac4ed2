"""Forms over a recipe's jobs: put onto a car, and kept as the garage's own."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from django import forms

from builds.recipes.engine.parse import MINUTES_MAX, TITLE_MAX, recipe_title
from builds.recipes.engine.recipe import Recipe, RecipeJob, RecipeLink
from builds.recipes.engine.sides import LONGEST_SIDE, has_sides
from builds.recipes.facts import KnownRecipe
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.forms import figures_in_order
from builds.work.models.job import Job
from garage.engine.words import work_words
from garage.forms.choices import NOT_HERE, TicksField
from garage.forms.durations import DurationField
from garage.forms.edits import EditForm
from garage.models import Membership, Vehicle


@dataclass(frozen=True)
class RecipeJobForm:
    """The fields of one job."""

    job: RecipeJob
    take: forms.BoundField
    title: forms.BoundField
    likely: forms.BoundField
    low: forms.BoundField
    high: forms.BoundField
    one: forms.BoundField | None
    more: tuple[forms.BoundField, ...]

    @property
    def words(self) -> str:
        """What stands behind the fold."""
        people = f", {self.job.hands} people" if self.job.hands > 1 else ""
        points = len(self.job.hold_points)
        held = f", {points} hold point{'s' * (points > 1)}" if points else ""
        parts = len(self.job.parts)
        gets = f", {parts} part{'s' * (parts > 1)}" if parts else ""
        return f"About {work_words(self.job.work[1])}{people}{gets}{held}"

    @property
    def wrong(self) -> bool:
        fields = (self.take, self.title, self.likely, self.low, self.high, *self.more)
        return any(field.errors for field in fields)


class JobChoice(forms.ModelChoiceField):
    """A job with its recipe beside it, since recipes have jobs of the same name; one that came by itself has none."""

    def label_from_instance(self, job: Job) -> str:
        named = job.recipe and job.recipe not in TAKEN_AGAIN
        return f"{job} ({recipe_title(job.recipe)})" if named else str(job)


class FleetJobChoice(JobChoice):
    """A job among those of several cars."""

    def label_from_instance(self, job: Job) -> str:
        return f"{job.vehicle}: {super().label_from_instance(job)}"


SIDE_LABELS = {"": "Not said", "left": "Left", "right": "Right", "both": "Both, a job for each side"}


def side_field(label: str) -> forms.ChoiceField:
    return forms.ChoiceField(label=label, required=False, choices=list(SIDE_LABELS.items()), error_messages=NOT_HERE)


class RecipeJobsForm(forms.Form):
    """Every job with a tick, its title and three figures; `recipe` gives what stands there."""

    def __init__(self, *args: Any, recipe: Recipe, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.recipe = recipe
        for job in recipe.jobs:
            self._add(job)

    def _add(self, job: RecipeJob) -> None:
        low, likely, high = job.work
        self.fields |= {
            f"take-{job.key}": forms.BooleanField(label=job.title, required=False, initial=True),
            f"title-{job.key}": forms.CharField(
                label="Title", max_length=TITLE_MAX - job.each_side * LONGEST_SIDE, initial=job.title
            ),
            f"likely-{job.key}": DurationField(label="Likely", most=MINUTES_MAX, initial=likely),
            f"low-{job.key}": DurationField(label="Goes well", most=MINUTES_MAX, initial=low, required=False),
            f"high-{job.key}": DurationField(label="Fights back", most=MINUTES_MAX, initial=high, required=False),
        }
        if job.parts:
            self.fields[f"parts-{job.key}"] = TicksField(
                label="Parts to get",
                choices=[(line, line) for line in job.parts],
                initial=list(job.parts),
                help_text="Untick what lies in the drawer.",
            )

    @property
    def rows(self) -> Iterator[RecipeJobForm]:
        names = ("take", "title", "likely", "low", "high")
        for job in self.recipe.jobs:
            fields = [self[f"{name}-{job.key}"] for name in names]
            one = self[f"one-{job.key}"] if f"one-{job.key}" in self.fields else None
            yield RecipeJobForm(job, *fields, one=one, more=tuple(self[name] for name in self.more_names(job)))

    def more_names(self, job: RecipeJob) -> list[str]:
        return [f"parts-{job.key}"] if job.parts else []

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for job in self.recipe.jobs:
            figures_in_order(self, (f"low-{job.key}", f"likely-{job.key}", f"high-{job.key}"))
        if not any(cleaned.get(f"take-{job.key}") for job in self.recipe.jobs):
            self.add_error(None, "Tick at least one job of the recipe.")
        return cleaned

    def leave_out(self) -> set[str]:
        return {job.key for job in self.recipe.jobs if not self.cleaned_data[f"take-{job.key}"]}

    def changes(self) -> dict[str, RecipeJob]:
        """The jobs as they were typed, by key."""
        return {job.key: self.changed(job) for job in self.recipe.jobs}

    def changed(self, job: RecipeJob) -> RecipeJob:
        low, likely, high = (self.cleaned_data[f"{name}-{job.key}"] for name in ("low", "likely", "high"))
        title = self.cleaned_data[f"title-{job.key}"]
        parts = tuple(line for line in job.parts if line in self.cleaned_data[f"parts-{job.key}"])
        return replace(job, title=title, work=(low, likely, high), parts=parts)


class PutForm(RecipeJobsForm):
    """`met` are jobs of the car that can serve for jobs of the recipe (key) as well, `alike` those that are likely the
    same work in somebody's own words.

    A job that was not offered as one for all, because the car was chosen only now, is taken as one; what is only alike
    is never taken so.
    """

    vehicle = forms.ModelChoiceField(
        label="Car",
        queryset=Vehicle.objects.none(),
        empty_label="Choose",
        error_messages={**NOT_HERE, "required": "Choose the car."},
    )

    def __init__(
        self, *args: Any, member: Membership, met: Mapping[str, Job], alike: Mapping[str, Job], **kwargs: Any
    ) -> None:
        self.alike = {key: job for key, job in alike.items() if key not in met and job not in met.values()}
        self.met = {**met, **self.alike}
        super().__init__(*args, **kwargs)
        if has_sides(self.recipe):
            self.fields["side"] = side_field("Side of the car")
        self.fields["vehicle"].queryset = Vehicle.objects.on_cars_of(member).kept()
        self.fields["offered"] = forms.CharField(
            required=False, widget=forms.HiddenInput, initial=" ".join(self.met), max_length=4000
        )

    def _add(self, job: RecipeJob) -> None:
        super()._add(job)
        if job.key in self.met:
            self.fields[f"one-{job.key}"] = forms.BooleanField(
                label="Once for both",
                required=False,
                initial=True,
                help_text=f"“{self.met[job.key]}” is on the car already and {self._does(job.key)}.",
            )

    def _does(self, key: str) -> str:
        return "is likely the same work" if key in self.alike else "will do this too"

    def one_for_all(self) -> dict[str, Job]:
        offered = self.cleaned_data["offered"].split()
        taken = {key for key in self.met if key not in offered and key not in self.alike}
        taken |= {key for key in offered if self.cleaned_data.get(f"one-{key}")}
        return {key: job for key, job in self.met.items() if key in taken}


class SeveralForm(forms.Form):
    """Several recipes on one car; jobs that they share are written down once."""

    vehicle = forms.ModelChoiceField(
        label="Car",
        queryset=Vehicle.objects.none(),
        empty_label="Choose",
        error_messages={**NOT_HERE, "required": "Choose the car."},
    )
    recipes = TicksField(
        label="Recipes",
        error_messages={**NOT_HERE, "required": "Tick at least one recipe."},
        required=True,
    )

    def __init__(self, *args: Any, member: Membership, recipes: Iterable[KnownRecipe], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.known = {known.recipe.key: known.recipe for known in recipes}
        self.fields["vehicle"].queryset = Vehicle.objects.on_cars_of(member).kept()
        self.fields["recipes"].choices = [(key, recipe.title) for key, recipe in self.known.items()]
        self.fields["side"] = side_field("Side of the car, for work that is done on one side")

    def chosen(self) -> list[Recipe]:
        return [self.known[key] for key in self.cleaned_data["recipes"]]


class OwnRecipeForm(EditForm, RecipeJobsForm):
    """Beyond the jobs' figures: skill, station, and the waits between."""

    recipe_title = forms.CharField(label="Title of the recipe", max_length=TITLE_MAX)
    summary = forms.CharField(max_length=1000, widget=forms.Textarea({"rows": 2}))

    def __init__(
        self,
        *args: Any,
        recipe: Recipe,
        skills: Mapping[str, str],
        stations: Mapping[str, str],
        **kwargs: Any,
    ) -> None:
        self.skills, self.stations = skills, stations
        kwargs["initial"] = {"recipe_title": recipe.title, "summary": recipe.summary}
        super().__init__(*args, recipe=recipe, **kwargs)

    def _add(self, job: RecipeJob) -> None:
        super()._add(job)
        titles = {other.key: other.title for other in self.recipe.jobs}
        self.fields[f"skill-{job.key}"] = forms.ChoiceField(
            label="Skill",
            required=False,
            initial=job.skill or "",
            choices=[("", "anybody can"), *self._words(self.skills, job.skill)],
        )
        if len(job.stations) < 2:
            used = next(iter(job.stations), "")
            self.fields[f"station-{job.key}"] = forms.ChoiceField(
                label="Where",
                required=False,
                initial=used,
                choices=[("", "anywhere"), *self._words(self.stations, used)],
            )
        for link in job.after:
            self.fields[f"wait-{job.key}-{link.job}"] = DurationField(
                label=f"Wait after {titles[link.job]}",
                most=MINUTES_MAX,
                required=False,
                initial=link.wait_minutes or None,
            )

    def _words(self, words: Mapping[str, str], used: str | None) -> list[tuple[str, str]]:
        known = {**words, **({used: used} if used and used not in words else {})}
        return sorted(known.items(), key=lambda item: item[1].lower())

    def more_names(self, job: RecipeJob) -> list[str]:
        names = [*super().more_names(job), f"skill-{job.key}", f"station-{job.key}"]
        names += [f"wait-{job.key}-{link.job}" for link in job.after]
        return [name for name in names if name in self.fields]

    def changed(self, job: RecipeJob) -> RecipeJob:
        data = self.cleaned_data
        station = data.get(f"station-{job.key}")
        stations = job.stations
        if station is not None:
            stations = {station: job.stations.get(station, 1)} if station else {}
        return replace(
            super().changed(job),
            skill=data[f"skill-{job.key}"] or None,
            stations=stations,
            after=tuple(self._link(link, data[f"wait-{job.key}-{link.job}"] or 0) for link in job.after),
        )

    def _link(self, link: RecipeLink, wait: int) -> RecipeLink:
        """A wait that was typed is no longer that of the cure's sheet."""
        if wait == link.wait_minutes:
            return link
        return replace(link, wait_minutes=wait, cure=None, stage=None)
