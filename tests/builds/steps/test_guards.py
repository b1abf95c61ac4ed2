"""What the actions of a job refuse by themselves, whatever form or phone asked for it."""

import pytest

from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.work.models.job import Job
from garage.actions.refused import Refused
from parts.actions.places import car_place
from tests.factories import NOW, JobFactory, MembershipFactory, StationFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def job(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Heron"), title="Weld it", made_by=cast.owner)


def change(job, by, **other):
    fields = {
        "work": (30, 60, 90), "systems": job.systems, "rank": "", "lowered_because": "", "stations": {},
        "left_minutes": None, "kinds": job.kinds, **other,
    }  # fmt: skip
    return jobs.change(job, by=by, at=NOW, **fields)


class TestMovingToAnotherCar:
    @pytest.fixture
    def badger(self, cast):
        return VehicleFactory(garage=cast.garage, name="Badger")

    def test_a_helper_moves_what_nobody_has_begun(self, cast, job, badger):
        assert change(job, cast.helper, vehicle=badger).vehicle == badger

    def test_begun_work_happened_to_its_car_whoever_moves_it(self, cast, job, badger):
        for state in ("in_hand", "waiting", "held", "done", "signed"):
            Job.objects.filter(pk=job.pk).update(state=state)
            job.refresh_from_db()
            for by in (cast.helper, cast.owner):
                with pytest.raises(Refused, match="begun on Heron, and stays there: write down a new job") as refused:
                    change(job, by, vehicle=badger)
                assert refused.value.field == "vehicle"
                job.refresh_from_db()
                assert job.vehicle.name == "Heron"

    def test_a_safety_job_is_moved_by_the_owner_alone(self, cast, job, badger):
        Job.objects.filter(pk=job.pk).update(systems=["steering"], rank="safety")
        job.refresh_from_db()
        with pytest.raises(Refused, match="is a safety job of Heron: only the owner moves it") as refused:
            change(job, cast.helper, vehicle=badger, rank="safety")
        assert refused.value.field == "vehicle"
        assert Job.objects.get(pk=job.pk).vehicle.name == "Heron"
        assert change(job, cast.owner, vehicle=badger, rank="safety").vehicle == badger

    def test_what_a_car_lacks_is_brought_back_to_that_car_whoever_asks(self, cast, badger):
        rod = PartFactory(garage=cast.garage, name="Tie rod end", single=True, systems=["steering"])
        bench, told = PlaceFactory(garage=cast.garage), {"quantity": 1, "by": cast.owner, "at": NOW}
        shelf.carry_out(rod, "receive", target=bench, **told)
        shelf.carry_out(rod, "fit", source=bench, car=badger, all_along=True, **told)
        shelf.carry_out(rod, "pull", source=car_place(badger), **told)
        owed = Job.objects.get(vehicle=badger)
        heron = VehicleFactory(garage=cast.garage, name="Heron")
        with pytest.raises(Refused, match="brings back what Badger lacks: it stays on Badger") as refused:
            change(owed, cast.owner, vehicle=heron, rank=owed.rank)
        assert refused.value.field == "vehicle"

    def test_a_helper_who_leaves_it_where_it_is_changes_the_rest(self, cast, job):
        steps.start(job, by=cast.helper, at=NOW)
        assert change(job, cast.helper, vehicle=job.vehicle, note="near the tank").note == "near the tank"


def test_what_begun_work_touched_stays_said_but_for_the_owner(cast, job):
    Job.objects.filter(pk=job.pk).update(state="in_hand", kinds=["hydraulics_opened"], systems=["brakes"])
    job.refresh_from_db()
    for field, less in (("kinds", {"kinds": []}), ("systems", {"systems": [], "rank": "safety"})):
        with pytest.raises(Refused, match="Only the owner takes it off") as refused:
            change(job, cast.helper, **less)
        assert refused.value.field == field
    for less in ({"kinds": []}, {"systems": []}):
        told = {"rank": "safety", **less}
        with pytest.raises(Refused, match=r"Say in words why this was not: (caliper, hose|brakes)") as refused:
            change(job, cast.owner, **told, because="x y z")
        assert refused.value.field == "because"
        job.refresh_from_db()
        change(job, cast.owner, **told, because="only the dust shield came off")
    assert (job.kinds, job.systems, job.nothing_because) == ([], [], "only the dust shield came off")
    assert (job.not_opened, job.not_touched) == (["hydraulics_opened"], ["brakes"])
    change(job, cast.owner, rank="safety", kinds=["hydraulics_opened"], systems=["brakes"])
    assert (job.not_opened, job.not_touched, job.nothing_because) == ([], [], "")


@pytest.fixture
def opened_again(cast, job):
    """Brake work that was finished without a start, and stands open again."""
    Job.objects.filter(pk=job.pk).update(kinds=["hydraulics_opened"], systems=["body"])
    job.refresh_from_db()
    steps.finish(job, by=cast.helper, at=NOW)
    steps.reopen(job, by=cast.helper, at=NOW, reason="weeps")
    job.refresh_from_db()
    assert job.state == "open"
    return job


class TestOpenedAgain:
    def test_it_was_begun_on_its_car_all_the_same(self, cast, opened_again):
        badger = VehicleFactory(garage=cast.garage, name="Badger")
        for by in (cast.helper, cast.owner):
            with pytest.raises(Refused, match="was begun on Heron, and stays there"):
                change(opened_again, by, vehicle=badger, rank=opened_again.rank)
            opened_again.refresh_from_db()
        assert Job.objects.get(pk=opened_again.pk).vehicle.name == "Heron"

    @pytest.mark.parametrize(
        ("field", "less"),
        [
            ("kinds", {"kinds": []}),
            ("systems", {"systems": []}),
            ("rank", {"rank": "wanted", "lowered_because": "not before spring"}),
        ],
    )
    def test_what_it_did_and_how_much_it_matters_stays_but_for_the_owner(self, cast, opened_again, field, less):
        told = {"rank": opened_again.rank, **less}
        with pytest.raises(Refused, match=r"[Oo]nly the owner") as refused:
            change(opened_again, cast.helper, **told)
        assert refused.value.field == field
        opened_again.refresh_from_db()
        why = "it was only looked at"
        change(opened_again, cast.owner, **{**told, "lowered_because": why}, because=why)

    def test_its_finish_takes_nothing_off_it(self, cast, opened_again):
        with pytest.raises(Refused, match="Only the owner takes it off"):
            steps.finish(opened_again, by=cast.helper, at=NOW, kinds=[])
        steps.finish(opened_again, by=cast.helper, at=NOW, kinds=["hydraulics_opened", "wheel_off"])


def test_begun_work_that_hurts_nobody_is_ranked_lower_by_the_owner_alone(cast, job):
    steps.start(job, by=cast.helper, at=NOW)
    with pytest.raises(Refused, match="was begun: only the owner ranks it lower") as refused:
        change(job, cast.helper, rank="wanted")
    assert refused.value.field == "rank"
    job.refresh_from_db()
    with pytest.raises(Refused, match="It was begun: write down why it may rank lower") as refused:
        change(job, cast.owner, rank="wanted")
    assert refused.value.field == "lowered_because"
    job.refresh_from_db()
    change(job, cast.owner, rank="wanted", lowered_because="the crack was a scratch")
    assert (job.rank, job.lowered_because) == ("wanted", "the crack was a scratch")


def test_a_helper_ranks_lower_what_nobody_has_begun(cast, job):
    assert job.rank == "needed"
    assert change(job, cast.helper, rank="wanted").rank == "wanted"


def test_a_station_of_another_garage_is_refused(cast, job):
    foreign = StationFactory(name="Foreign bay")
    with pytest.raises(Refused, match="station must be in the same garage"):
        change(job, cast.owner, stations={foreign: 1})
    assert not job.uses.exists()


class TestCrew:
    def test_of_another_garage_is_refused(self, cast, job):
        for crew in ([cast.stranger], [cast.owner, cast.stranger]):
            with pytest.raises(Refused, match="must be in this garage"):
                steps.start(job, by=cast.owner, at=NOW, crew=crew)
        job.refresh_from_db()
        assert job.state == "open"

    def test_whoever_taps_is_of_this_garage_too(self, cast, job):
        with pytest.raises(Refused, match="must be in this garage"):
            steps.start(job, by=cast.stranger, at=NOW)

    def test_of_this_one_is_not(self, cast, job):
        other = MembershipFactory(garage=cast.garage)
        steps.start(job, by=cast.owner, at=NOW, crew=[cast.helper, other])
        job.refresh_from_db()
        assert job.state == "in_hand"


class TestDropping:
    @pytest.mark.parametrize("reason", ["", " ", "\n\t"])
    @pytest.mark.parametrize("rank", ["safety", "needed", "wanted"])
    def test_wants_a_reason_whatever_the_rank_and_whoever_drops(self, cast, job, rank, reason):
        Job.objects.filter(pk=job.pk).update(rank=rank)
        job.refresh_from_db()
        with pytest.raises(Refused, match="Write down in words why it is dropped"):
            steps.drop(job, by=cast.owner, at=NOW, reason=reason)
        job.refresh_from_db()
        assert job.state == "open"

    @pytest.mark.parametrize("safe", [{"rank": "safety"}, {"rank": "wanted", "systems": ["brakes"]}])
    def test_safety_work_is_the_owners_to_drop(self, cast, job, safe):
        Job.objects.filter(pk=job.pk).update(**safe)
        job.refresh_from_db()
        with pytest.raises(Refused, match="Only the owner can drop a safety job"):
            steps.drop(job, by=cast.helper, at=NOW, reason="no time")
        steps.drop(job, by=cast.owner, at=NOW, reason="the car is sold")
        job.refresh_from_db()
        assert (job.state, job.state_note) == ("dropped", "the car is sold")

    def test_other_work_is_anybodys(self, cast, job):
        steps.drop(job, by=cast.helper, at=NOW, reason="no time")
        job.refresh_from_db()
        assert job.state == "dropped"


def test_a_safety_job_is_not_written_lower_without_a_reason(cast, job):
    with pytest.raises(Refused):
        jobs.write(
            job.vehicle, by=cast.owner, at=NOW, title="Brakes", work=(1, 2, 3), systems=["brakes"], rank="wanted"
        )
    assert not Job.objects.filter(title="Brakes").exists()
