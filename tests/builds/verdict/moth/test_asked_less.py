"""Less asked of a car than stood in the way, faults that somebody only wants mended, and a list that says nothing."""

from datetime import timedelta

import pytest

from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput
from builds.readings.facts.kinds import kind_of
from builds.scrutineering.actions import check_lists, runs
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import KINDS, tick_all
from tests.builds.verdict.ways_kit import WORK
from tests.factories import NOW, EntryFactory, EventFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
END = NOW + 9 * HOUR


def ask(cast, car, *without):
    readings.choose_required(car, [kind for kind in KINDS if kind not in without], by=cast.owner, at=NOW + 5 * HOUR)


class TestReadings:
    def test_what_the_car_ran_on_is_read_before_nobody_asks_for_it(self, cast, car):
        day = EventFactory(garage=cast.garage, gates_at=NOW + HOUR, ends_at=NOW + 3 * HOUR)
        runs.first_session(EntryFactory(event=day, vehicle=car), by=cast.helper, at=NOW + 2 * HOUR)
        with pytest.raises(Refused, match="Wheel torque is not as it must be: measure it first") as refused:
            ask(cast, car, "wheel_torque", "ride_height")
        assert refused.value.field == "kinds"
        take(car, "wheel_torque", cast.owner, at=NOW + 4 * HOUR)
        ask(cast, car, "wheel_torque", "ride_height")

    def test_what_is_out_of_its_limits_is_set_first(self, cast, car):
        toe = kind_of(car.garage, "toe_front")
        readings.set_targets(car, toe, {field.slug: TargetInput("most", 50, None, "0.05") for field in toe.figures})
        with pytest.raises(Refused, match="Front toe is not as it must be"):
            ask(cast, car, "toe_front")
        take(car, "toe_front", cast.owner, at=NOW + HOUR, amount=40)
        ask(cast, car, "toe_front")

    def test_that_none_is_asked_for_is_said(self, cast, car):
        ask(cast, car, *KINDS)
        assert verdict_of(car, END).sentence == "Fit to run; no reading is asked of it"


class TestFaults:
    LATCH = "Bonnet does not latch"

    def written(self, cast, car, title=LATCH, **more):
        return jobs.add(car, by=cast.helper, at=NOW, title=title, work=WORK, systems=["body"], **more)

    def test_ranked_wanted_they_are_counted_and_named(self, cast, car, owner):
        self.written(cast, car, rank="wanted")
        self.written(cast, car, "Polish the bonnet", rank="wanted")
        said = verdict_of(car, END)
        assert said.sentence == "Fit to run; 1 fault is still to mend, ranked wanted"
        assert said.lowered == ("“Bonnet does not latch” ranks wanted, and is to be mended.",)
        assert said.lowered[0] in owner.get(f"/cars/{car.pk}/").content.decode()

    def test_dropped_they_want_a_word_and_are_told_until_somebody_looks(self, cast, car):
        job = self.written(cast, car)
        assert verdict_of(car, END).state == "not_fit"
        with pytest.raises(Refused, match="Write down in words why it is dropped"):
            steps.drop(job, by=cast.helper, at=NOW + HOUR, reason=".")
        steps.drop(Job.objects.get(pk=job.pk), by=cast.helper, at=NOW + HOUR, reason="it holds by the pins")
        said = verdict_of(car, END)
        assert said.sentence == "Fit to run; 1 job was dropped without being done"
        assert "it holds by the pins" in said.dropped[0]
        tick_all(cast, NOW + 2 * HOUR)
        assert verdict_of(car, END).sentence == "Fit to run"


def test_an_organisers_list_that_says_nothing_of_what_stops_and_turns_the_car_is_said(cast, entry, car):
    told = {"name": "Kiln Club", "text": "Numbers on both doors\nTyres", "with_shipped": False}
    check_lists.keep_organiser(cast.garage, at=NOW, **told)
    entry.event.organiser = "Kiln Club"
    entry.event.save()
    CheckLog.objects.all().delete()
    CheckItem.objects.all().delete()
    check_lists.make(entry, by=cast.owner, at=NOW)
    tick_all(cast, NOW)
    said = "its scrutineering list says nothing of steering, brakes and suspension"
    assert verdict_of(car, END).sentence == f"Fit to run; {said}"
