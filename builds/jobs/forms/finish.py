"""The form in which a job is finished: what was opened, what went on, what was measured."""

from typing import Any

from django import forms

from builds.jobs.actions import Finish
from builds.jobs.facts import next_after
from builds.jobs.forms.kinds import kinds_offered
from builds.jobs.forms.steps import EarlierForm
from builds.needs.pages.at_hand import ToFit, not_here, parts_to_fit
from builds.readings.engine.conditions import wants_wheels
from builds.readings.engine.vocabulary import names_of
from builds.readings.facts.last_acts import last_acts
from builds.readings.facts.to_take import to_take
from builds.readings.forms.many import ManyReadingsForm, kinds_sent
from builds.recipes.forms import JobChoice
from builds.steps.engine.opened import WHAT_WAS_OPENED, ticked_beforehand
from builds.steps.facts.opened import asks, less_said
from builds.work.facts.strips import ON_WHEELS, on_stands, stripped_until
from builds.work.models.job import Job
from builds.work.models.link import Link
from builds.work.models.need import Need
from garage.clock import clock_words
from garage.engine.reasons import says_why
from garage.engine.words import listed_in_words
from garage.forms.choices import TicksField
from garage.forms.within import FormWithin

GONE = "One of these is no longer at hand: look again."


class FinishForm(FormWithin, EarlierForm):
    """What a job written down by hand opened, the likely first; parts at hand, and the fields of its readings.

    One tap says nothing of all that: then nothing goes on and nothing is measured.
    """

    nothing = forms.BooleanField(
        label="Nothing was opened, moved or changed", required=False, help_text="only looked at, measured or cleaned"
    )
    kinds = TicksField(
        label="What was opened, moved or changed",
        short=True,
        help_text="They say which readings, ticks and joints no longer hold.",
        error_messages={"required": WHAT_WAS_OPENED},
    )
    because = forms.CharField(
        label="Why nothing was opened, or less than is likely",
        max_length=200,
        required=False,
        help_text="What was done instead. The verdict and its sheet say it.",
    )
    parts = TicksField(
        label="Fitted or used up with it",
        help_text="Untick what did not go on: it stays wanted.",
        error_messages={"invalid_choice": GONE},
    )
    besides = TicksField(
        label="Fitted too, and not on the shelf",
        help_text="Tick what came and went straight on.",
        error_messages={"invalid_choice": GONE},
    )
    still = forms.BooleanField(required=False)
    then = JobChoice(
        label="Then start",
        queryset=Job.objects.none(),
        required=False,
        empty_label="nothing yet",
        error_messages={"invalid_choice": "That cannot be started now: look again."},
    )
    told = forms.BooleanField(required=False, initial=True, widget=forms.HiddenInput)
    field_order = ["nothing", "because", "kinds", "still", "parts", "besides", "moment", "then", "told"]

    def __init__(self, data: Any = None, *, job: Job, **kwargs: Any) -> None:
        super().__init__(data, job=job, **kwargs)
        self.job, self.asked = job, asks(job)
        self._kinds()
        self._still()
        to_fit = parts_to_fit(job, self.at)
        self._parts(to_fit, not_here(job, to_fit))
        kinds = to_take(job, kinds_sent(data))
        self.readings = ManyReadingsForm(data, kinds=kinds, vehicle=job.vehicle, member=self.member, job=job)
        self._then(next_after(job, self.at))
        on_wheels = any(wants_wheels(kind.conditions) for kind in kinds)
        self.stripped = stripped_until(job.vehicle, self.at) if on_wheels else ""
        self.on_stands = on_wheels and on_stands(job.vehicle) and ON_WHEELS.isdisjoint(job.kinds)

    def _kinds(self) -> None:
        job = self.job
        by_recipe = bool(job.recipe and not job.kinds_likely)
        if not less_said(job, job.kinds if by_recipe else ()).asks:
            del self.fields["because"]
        if by_recipe:
            for name in ("kinds", "nothing"):
                del self.fields[name]
            return
        ticked = list(ticked_beforehand(job.title, job.kinds)) if job.kinds_likely else job.kinds
        self.fields["kinds"].choices = kinds_offered(job.systems, ticked)
        self.fields["kinds"].required = self.asked and not self.data.get("nothing")
        self.initial["kinds"] = ticked

    def _still(self) -> None:
        """Asked where it may have been worked on since its last readings."""
        self.last = last_acts(self.job, self.at)
        if self.last is None:
            del self.fields["still"]
            return
        since, read = clock_words(self.last.at, self.at), names_of(self.last.kinds)
        self.fields["still"].label = f"Nothing was done to it since {since}, when this was read: {read}"
        self.fields["still"].help_text = "Left empty: that is measured again."

    def _parts(self, to_fit: list[ToFit], others: list[Need]) -> None:
        """What needs a reason first is said beside, with the way there."""
        self.ready = {str(line.ready.need.pk): line for line in to_fit if not line.asks}
        self.others = {str(need.pk): need for need in others}
        self.asking = [line for line in to_fit if line.asks]
        self.fields["parts"].choices = [(key, line.words) for key, line in self.ready.items()]
        self.initial["parts"] = list(self.ready)
        self.fields["besides"].choices = [(key, str(need)) for key, need in self.others.items()]
        for name, there in (("parts", self.ready), ("besides", self.others)):
            if not there and name not in self.data:
                del self.fields[name]

    def _then(self, ahead: list[Job]) -> None:
        if not ahead and not self.data.get("then"):
            del self.fields["then"]
            return
        field = self.fields["then"]
        field.queryset = Job.objects.filter(pk__in=[job.pk for job in ahead])
        field.choices = [("", field.empty_label), *((job.pk, field.label_from_instance(job)) for job in ahead)]

    @property
    def cures(self) -> bool:
        """Whether something cures, or waits otherwise, once it is done."""
        after = Link.objects.filter(before=self.job, cut_at=None)
        return after.exclude(wait_minutes=0, cure="").exists()

    @property
    def within(self) -> list[ManyReadingsForm]:
        return [self.readings] if self.readings.each else []

    def has_changed(self) -> bool:
        """One tap, from a card or the page of the job, sends none of the fields."""
        return "told" in self.data or bool(self.data.get("moment"))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        told, nothing = cleaned.pop("told", False), cleaned.pop("nothing", False)
        kinds = cleaned.get("kinds") or []
        if kinds and nothing:
            self.add_error("nothing", "Either something was opened, or nothing was.")
        asked = "kinds" in self.fields
        cleaned["kinds"] = kinds if kinds or nothing or (asked and told and not self.asked) else None
        self._why_nothing(cleaned)
        if self.last and not told:
            self.add_error("still", "Say whether anything was done to it after that.")
        return cleaned

    def _why_nothing(self, cleaned: dict[str, Any]) -> None:
        if "because" not in self.fields or "kinds" in self.errors or cleaned["kinds"] is None:
            return
        ask = less_said(self.job, cleaned["kinds"]).asks
        if ask and not says_why(cleaned.get("because", "")):
            self.add_error("because", ask)

    def finish(self) -> dict[str, Any]:
        """What the action takes, once all of it is valid."""
        moment = self.cleaned_data.get("moment")
        came = Finish(
            tuple(self.readings.measured(moment)) if self.within else (),
            tuple(self.ready[key].ready for key in self.cleaned_data.get("parts", ())),
            tuple(self.others[key] for key in self.cleaned_data.get("besides", ())),
        )
        then = self.cleaned_data.get("then")
        told = {"kinds": self.cleaned_data["kinds"], "because": self.cleaned_data.get("because", "")}
        ended = self.last.ended if self.last and self.cleaned_data.get("still") else moment
        return {"moment": ended, **told, "came": came, "then": then}

    def left(self, came: Finish) -> str:
        """What was left for later, in sentences; empty when nothing was."""
        fitted = {ready.need.pk for ready in came.parts} | {need.pk for need in came.besides}
        lines = [line for line in (*self.ready.values(), *self.asking) if line.ready.need.pk not in fitted]
        wanted = [str(line.ready.need) for line in lines]
        wanted += [str(need) for need in self.others.values() if need.pk not in fitted]
        taken = {taken.kind.key for taken in came.readings}
        missing = [form.kind.label for form in self.readings.each if form.kind.key not in taken]
        said = [f"Not fitted: {listed_in_words(wanted)}." if wanted else ""]
        said += [f"Not measured yet: {listed_in_words(missing)}." if missing else ""]
        return " ".join(filter(None, said))
