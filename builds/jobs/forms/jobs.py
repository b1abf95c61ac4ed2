"""The form of a job: a few fields first, the rest behind a fold."""

from dataclasses import replace
from typing import Any

from django import forms

from builds.cure.models.shop import COLDEST_MC, WARMEST_MC
from builds.jobs.forms.kinds import kinds_offered
from builds.readings.engine.kinds_touch import touched
from builds.recipes.facts import alike_on, served_on
from builds.steps.actions.jobs import lowered_from, refuse_lowering
from builds.steps.engine.by_words import rank_said
from builds.steps.facts.begun import was_begun
from builds.steps.facts.by_words import ToldByWords, told_changed, told_new
from builds.steps.facts.looks import unread
from builds.work.engine.ranks import RANKS, rank_for, refuse_wanted
from builds.work.forms import FIGURES, figures_in_order
from builds.work.models.job import MOST_MINUTES, Job
from garage.access import OWNER
from garage.forms.choices import NOT_HERE, TicksField
from garage.forms.durations import DurationField
from garage.forms.edits import EditForm
from garage.forms.moments import MomentField
from garage.forms.quantities import QuantityField
from garage.forms.systems import SystemsField
from garage.models import Membership, Skill, Station, Vehicle

FIRST = ["title", "vehicle", "systems", *FIGURES, "skill", "stations"]
OWN = [
    *("title", "vehicle", "systems", "skill", "lowered_because", "hands", "splits", "weight", "turned_out"),
    *("kinds", "note", "earliest_at", "pinned_at", "left_minutes", "needs_mc", "needs_dry"),
]


class JobForm(EditForm, forms.Form):
    """`vehicle` is where one came from; another car of the garage can be chosen."""

    title = forms.CharField(label="What is to be done", max_length=120)
    vehicle = forms.ModelChoiceField(
        label="Car", queryset=Vehicle.objects.none(), empty_label=None, error_messages=NOT_HERE
    )
    systems = SystemsField(
        label="What it touches",
        help_text="Steering, brakes, suspension, wheels, restraint, seat, fuel, fire and cage make it a safety job.",
    )
    likely = DurationField(label="Likely", most=MOST_MINUTES, help_text="such as 1.5, 1:30 or 90 min")
    low = DurationField(label="If it goes well", most=MOST_MINUTES, required=False)
    high = DurationField(label="If it fights back", most=MOST_MINUTES, required=False)
    skill = forms.ModelChoiceField(
        queryset=Skill.objects.none(),
        required=False,
        empty_label="anybody can",
        error_messages=NOT_HERE,
    )
    stations = forms.ModelMultipleChoiceField(
        label="Where",
        queryset=Station.objects.none(),
        required=False,
        widget=forms.CheckboxSelectMultiple({"class": "short"}),
        error_messages=NOT_HERE,
    )

    rank = forms.ChoiceField(choices=[("", "As what it touches says"), *RANKS.items()], required=False)
    lowered_because = forms.CharField(
        label="Why it may rank lower",
        max_length=200,
        required=False,
        help_text="Stands on the job and is printed on the sheet.",
    )
    hands = forms.IntegerField(
        label="Hands at once",
        min_value=0,
        max_value=9,
        initial=1,
        help_text="0 when nobody is needed",
    )
    splits = forms.BooleanField(
        label="May stop and go on another evening",
        required=False,
        initial=True,
        help_text="two-pack paint is always sprayed in one go",
    )
    earliest_at = MomentField(label="Not before", required=False)
    pinned_at = MomentField(label="Starts exactly at", required=False)
    needs_mc = QuantityField(
        "temperature",
        "m°C",
        COLDEST_MC,
        WARMEST_MC,
        label="Only when it is at least so warm",
        required=False,
        help_text="such as paint and sealer need; the plan then waits for the shop",
    )
    needs_dry = forms.BooleanField(
        label="Only when the metal is clear of the dew point",
        required=False,
        help_text="by 3 °C (5.4 °F), and the air is below 85 %",
    )
    left_minutes = DurationField(
        label="Left to do, if you know better",
        most=MOST_MINUTES,
        required=False,
        help_text="instead of the likely figure less what was worked",
    )
    weight = forms.IntegerField(label="Weight", min_value=1, max_value=9, initial=1, help_text="9 matters most")
    note = forms.CharField(max_length=4000, required=False, widget=forms.Textarea({"rows": 4}))
    kinds = TicksField(
        label="Kinds of work",
        help_text=(
            "They say which readings no longer hold afterwards, and which cautions to show. One that opens brakes, "
            "steering, suspension, a hub, a belt or a fuel line makes it a safety job, whatever is ticked above."
        ),
    )

    because = forms.CharField(
        label="Why less was opened or touched",
        max_length=200,
        required=False,
        help_text="Where something is unticked that stood there when work was begun. The verdict and its sheet say it.",
    )
    turned_out = forms.CharField(
        label="What it was",
        max_length=200,
        required=False,
        help_text="Its words named nothing: until you say what it was, somebody else has to look at it.",
    )

    once_more = forms.BooleanField(
        label="Write it down all the same",
        required=False,
        help_text="Where it is to be done once more.",
    )

    def __init__(
        self,
        *args: Any,
        member: Membership,
        vehicle: Vehicle,
        job: Job | None = None,
        **kwargs: Any,
    ) -> None:
        kwargs["initial"] = _initial(job) if job else {"vehicle": vehicle}
        super().__init__(*args, edits=job is not None, **kwargs)
        self.job, self.garage = job, member.garage_id
        self.told: ToldByWords | None = None
        self.units = {use.station_id: use.units for use in job.uses.all()} if job else {}
        said = (job.systems, job.kinds) if job else ((), ())
        owns = job is not None and member.role == OWNER
        if not (owns and was_begun(job)):
            del self.fields["because"]
        if not (owns and (unread(job) or job.turned_out)):
            del self.fields["turned_out"]
        if job or not self.is_bound:
            del self.fields["once_more"]
        self.fields["kinds"].choices = kinds_offered(*said, happened=True)
        self.fields["needs_mc"].use(member.garage.units)
        self.fields["vehicle"].queryset = Vehicle.objects.on_cars_of(member).kept()
        self.fields["skill"].queryset = Skill.objects.visible_to(member)
        self.fields["stations"].queryset = Station.objects.visible_to(member)

    @property
    def rest(self) -> list[forms.BoundField]:
        return [field for field in self if field.name not in FIRST]

    @property
    def rest_open(self) -> bool:
        return any(field.errors for field in self.rest)

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        figures_in_order(self)
        self._by_words(cleaned)
        if not self.job:
            self._twice(cleaned)
        was = lowered_from(self.job)
        if "systems" in cleaned and "rank" in cleaned:
            reason = cleaned.get("lowered_because", "")
            kinds = cleaned.get("kinds", [])
            if wrong := refuse_lowering(cleaned["rank"], cleaned["systems"], reason, was, kinds=kinds):
                self.add_error("lowered_because", wrong)
            said = (cleaned["systems"], kinds, cleaned.get("measures", ()), self.job.recipe if self.job else "")
            if wrong := refuse_wanted(cleaned["rank"], *said):
                self.add_error("rank", wrong)
        if cleaned.get("hands") == 0 and cleaned.get("skill"):
            self.add_error("skill", "A job that needs nobody cannot ask for a skill.")
        earliest, pinned = cleaned.get("earliest_at"), cleaned.get("pinned_at")
        if earliest and pinned and pinned < earliest:
            self.add_error("pinned_at", "It cannot start before the moment in Not before.")
        return cleaned

    def _by_words(self, cleaned: dict[str, Any]) -> None:
        """What nobody said: of a new job all that its title names, of one that is called otherwise what that adds."""
        if {"title", "systems", "kinds", "rank"} - cleaned.keys():
            return
        ticked = cleaned["title"], cleaned["systems"], cleaned["kinds"]
        told = told_changed(self.job, *ticked) if self.job else told_new(self.garage, *ticked)
        if cleaned.get("skill") or cleaned.get("hands") == 0:
            told = replace(told, skill=None)
        self.told = told
        cleaned |= {**told.fields, "skill": told.skill or cleaned.get("skill")}
        said, seen = rank_said(told.said, cleaned["title"]), self.job is not None and self.job.was_seen
        if said and not cleaned["rank"] and not (seen and said == Job.Rank.WANTED):
            cleaned["rank"] = said

    def _twice(self, cleaned: dict[str, Any]) -> None:
        """A new job that one of the car does already is `once_more` work, or none: asked for where that is so."""
        more, title, car = cleaned.pop("once_more", False), cleaned.get("title", ""), cleaned.get("vehicle")
        typed = {title: self.told.said} if self.told and car else {}
        there, like = served_on(car, typed).get(title), alike_on(car, typed).get(title)
        if there is None and like is None:
            del self.fields["once_more"]
        elif not more:
            does = "does this" if there else "is likely the same work"
            self.add_error("once_more", f"“{there or like}” is on {car} already and {does}.")

    def written(self) -> dict[str, Any]:
        """What `actions.jobs.add` and `change` take."""
        data = dict(self.cleaned_data)
        data["work"] = tuple(data.pop(name) for name in FIGURES)
        data["stations"] = {station: self.units.get(station.pk, 1) for station in data["stations"]}
        return data


def _initial(job: Job) -> dict[str, Any]:
    own = rank_for(touched(job.systems, job.kinds)) or Job.Rank.NEEDED
    return {
        **{name: getattr(job, name) for name in OWN},
        "vehicle": job.vehicle_id,
        "skill": job.skill_id,
        "rank": "" if job.rank == own else job.rank,
        "low": job.low_minutes,
        "likely": job.likely_minutes,
        "high": job.high_minutes,
        "stations": [use.station_id for use in job.uses.all()],
    }
