"""The forms of a move (how many, from where, to where, for which job), of a count, and of a part that is wanted."""

import re
from collections.abc import Mapping
from typing import Any, ClassVar

from django import forms
from django.db.models import Q, QuerySet

from builds.needs.facts.crashed import crashed_with
from builds.recipes.forms import FleetJobChoice
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.access import OWNER
from garage.models import Membership, Vehicle
from parts.engine.ledger import AT_HAND, STORES, VERBS
from parts.engine.words import amount_words
from parts.forms.parts import PartForm
from parts.models import Balance, Part, Place
from parts.models.part import MOST

# Every garage has one of each of these, so that nobody needs to choose it.
ONE_OF_EACH = ("bench", "repair", "scrap", "supplier")
FOR_A_JOB = ("pull", "fit", "take_off")
WHOLE = re.compile(r"\d{1,18}", re.ASCII)
PREFILLED = ("quantity", "source", "target", "car", "job")


class HeldChoice(forms.ModelChoiceField):
    """Places with what they hold of the part."""

    part: Part
    held: Mapping[int, int]

    def label_from_instance(self, obj: Place) -> str:
        has = self.held.get(obj.pk)
        return f"{obj} ({amount_words(self.part.unit, has)} there)" if has else str(obj)


class MoveForm(forms.Form):
    """Fields that the verb does not ask for are not there; one choice is made beforehand.

    `target` ends at a place, `car` on a car, `someone` with a person; else the verb says where.
    """

    quantity = forms.IntegerField(label="How many", min_value=1, max_value=MOST, initial=1)
    source = HeldChoice(queryset=Place.objects.none(), label="From")
    target = HeldChoice(queryset=Place.objects.none(), label="To")
    car = forms.ModelChoiceField(queryset=Vehicle.objects.none(), label="Onto")
    someone = forms.CharField(label="With whom", max_length=60)
    job = FleetJobChoice(queryset=Job.objects.none(), required=False, label="For the job", empty_label="no job")
    unknown_because = forms.CharField(label="Why it may be fitted, though nobody knows its history", max_length=150)
    fit_because = forms.CharField(
        label="Why it may be fitted, though it does not fit or nobody knows",
        max_length=150,
        required=False,
    )
    all_along = forms.BooleanField(
        label="It was on the car already, and is only written down now",
        required=False,
        help_text="else fitting it without a job is work of its own: it opens what such work mostly opens",
    )
    why = forms.CharField(label="Note", max_length=200, required=False)

    def __init__(
        self,
        data: Any = None,
        *,
        part: Part,
        verb: str,
        asked: Mapping[str, str],
        job: Job | None,
        by: Membership,
    ) -> None:
        """`asked` is what a link fills in; `job` the likely one, and its car; offered is what `by` may do."""
        sent = {name: asked.get(name, "") for name in PREFILLED}
        known = {name: int(text) for name, text in sent.items() if WHOLE.fullmatch(text)}
        super().__init__(data, initial=known)
        self.part, self.verb, self.by = part, verb, by
        rows = Balance.objects.held().filter(part=part)
        self.held = dict(rows.values_list("place_id", "quantity"))
        self._source()
        self._target(job)
        self._job(job)
        if verb != "fit" or not (part.condition == Part.Condition.UNKNOWN or crashed_with(part)):
            del self.fields["unknown_because"]
        if verb != "fit" or not any(need.fit for need in Need.objects.filter(part=part)):
            del self.fields["fit_because"]
        if verb != "fit" or by.role != OWNER:
            del self.fields["all_along"]
        self.fields["quantity"].unit = part.get_unit_display()
        if part.single:
            self.fields["quantity"].widget = forms.HiddenInput()

    @property
    def row(self) -> Any:
        return VERBS[self.verb]

    def _source(self) -> None:
        if self.row.sources <= set(ONE_OF_EACH):
            del self.fields["source"]
            return
        places = Place.objects.in_garage(self.part.garage_id).filter(pk__in=self.held, kind__in=self.row.sources)
        if self.by.only_cars is not None and self.by.only_donors is not None:
            his = self.by.only_cars | self.by.only_donors
            places = places.filter(Q(vehicle=None) | Q(vehicle__in=his))
        self._choices("source", places.select_related("vehicle").walking_order())

    def _target(self, job: Job | None) -> None:
        garage, wanted = self.part.garage_id, self.row.targets
        places = Place.objects.in_garage(garage)
        if self.verb != "fit":
            del self.fields["car"]
        else:
            self._choices("car", Vehicle.objects.on_cars_of(self.by).kept())
            if job and "job" not in self.initial:
                self.initial.setdefault("car", job.vehicle_id)
        if self.verb != "lend":
            del self.fields["someone"]
        if not wanted & STORES or self.scraps:
            del self.fields["target"]
        else:
            self._choices("target", places.filter(kind__in=wanted & AT_HAND).walking_order())

    @property
    def scraps(self) -> bool:
        """What is used once comes off a car to the scrap alone."""
        return self.verb == "take_off" and self.part.one_use

    def _job(self, job: Job | None) -> None:
        if self.verb not in FOR_A_JOB:
            del self.fields["job"]
            return
        # Off the shelf anybody fetches for any car: that is no work on it.
        rows = Job.objects.visible_to(self.by) if self.verb == "pull" else Job.objects.on_cars_of(self.by)
        self.fields["job"].queryset = rows.open().select_related("vehicle").order_by("vehicle__name", "pk")
        if job and self.initial.get("car", job.vehicle_id) == job.vehicle_id:
            self.initial.setdefault("job", job.pk)

    def _choices(self, name: str, rows: QuerySet[Any]) -> None:
        """One choice is made; more are offered, the one asked for first."""
        field = self.fields[name]
        field.queryset = rows
        if isinstance(field, HeldChoice):
            field.part, field.held = self.part, self.held
        first = list(rows[:2])
        if len(first) == 1:
            field.empty_label = None
            self.initial.setdefault(name, first[0].pk)

    @property
    def lacks_place(self) -> bool:
        """It has to lie somewhere, and there is no such place yet."""
        return "target" in self.fields and not self.fields["target"].queryset.exists()

    @property
    def lacks_car(self) -> bool:
        """It goes onto a car, and there is none on which he works."""
        return "car" in self.fields and not self.fields["car"].queryset.exists()

    @property
    def lacks_part(self) -> bool:
        return "source" in self.fields and not self.sources

    @property
    def sources(self) -> list[Place]:
        """Where it may come from: the one asked for, else all."""
        if "source" not in self.fields:
            return []
        places = list(self.fields["source"].queryset)
        asked = str(self["source"].value() or "")
        return [place for place in places if str(place.pk) == asked] or places


class PartAddForm(PartForm):
    """A part with where it lies, which job it is for and which car it goes onto; each may be said later."""

    seen_first: ClassVar = ("name", "quantity", "target", "new_place", "job", "car", "condition", "single", "systems")

    quantity = forms.IntegerField(label="How many there are", min_value=1, max_value=MOST, initial=1)
    target = forms.ModelChoiceField(
        queryset=Place.objects.none(), label="Where it lies", required=False, empty_label="not said yet"
    )
    new_place = forms.CharField(label="Or in a new place", max_length=60, required=False)
    job = FleetJobChoice(queryset=Job.objects.none(), label="For the job", required=False, empty_label="no job")
    car = forms.ModelChoiceField(
        queryset=Vehicle.objects.none(),
        label="Onto the car",
        required=False,
        empty_label="no car",
        help_text="what fitting it asks comes next",
    )

    def __init__(self, *args: Any, member: Membership, **kwargs: Any) -> None:
        super().__init__(*args, member=member, **kwargs)
        garage = member.garage_id
        self.fields["target"].queryset = Place.objects.in_garage(garage).filter(kind__in=AT_HAND).walking_order()
        jobs = Job.objects.in_garage(garage).open().select_related("vehicle")
        self.fields["job"].queryset = jobs.order_by("vehicle__name", "pk")
        self.fields["car"].queryset = Vehicle.objects.in_garage(garage).kept()

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if cleaned.get("target") and cleaned.get("new_place"):
            self.add_error("new_place", "Choose a place or write a new one, not both.")
        if cleaned.get("single") and cleaned.get("quantity", 1) > 1:
            self.add_error("quantity", "One of a kind is one.")
        job, car = cleaned.get("job"), cleaned.get("car")
        if job and car and job.vehicle_id != car.pk:
            self.add_error("car", f"“{job}” is a job on {job.vehicle}.")
        return cleaned


class CountForm(forms.Form):
    place = forms.ModelChoiceField(queryset=Place.objects.none(), label="Where")
    counted = forms.IntegerField(label="How many are there", min_value=0, max_value=MOST)
    why = forms.CharField(label="Note", max_length=200, required=False)

    def __init__(self, data: Any = None, *, part: Part, asked: str) -> None:
        initial = {"place": asked} if asked.isdecimal() else {}
        super().__init__(data, initial=initial)
        places = Place.objects.in_garage(part.garage_id).filter(kind__in=AT_HAND)
        self.fields["place"].queryset = places.walking_order()
        self.fields["counted"].unit = part.get_unit_display()


class PartWantForm(forms.Form):
    """A part of the shelf, wanted for a job."""

    job = FleetJobChoice(queryset=Job.objects.none(), label="For the job")
    quantity = forms.IntegerField(label="How many", min_value=1, max_value=MOST, initial=1)

    def __init__(self, *args: Any, part: Part, by: Membership, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        rows = Job.objects.on_cars_of(by).open().select_related("vehicle")
        self.fields["job"].queryset = rows.order_by("vehicle__name", "pk")
        self.fields["quantity"].unit = part.get_unit_display()
        if part.single:
            self.fields["quantity"].widget = forms.HiddenInput()
