"""Work that a helper writes down in his own words and finishes with one tap: it is asked what was opened."""

from datetime import timedelta

import pytest

from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from parts.actions.places import car_place
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)


def written(cast, car, title, **more):
    sent = {"title": title, "likely": "3 h", "vehicle": car.pk, "hands": "1", "weight": "1", **more}
    cast.client("helper").press(f"/cars/{car.pk}/jobs/add/", sent)
    return Job.objects.filter(title=title).first()


@pytest.mark.parametrize(
    "title",
    [
        *(
            "Gearbox out for clutch",
            "Half shaft out and in",
            "Diff out and in",
            "Prop off and on",
            "prop UJ",
            "loom in",
        ),
        *("gas it and do the sill", "new floor pan let in", "front x-member off for sump", "screen in", "dash out"),
        *("fit the wide arches", "undertray off and on", "de-cat and back box", "drop the tank", "rear beam off"),
    ],
)
def test_one_tap_does_not_finish_it(cast, car, title):
    job = written(cast, car, title)
    assert job.kinds_likely
    with pytest.raises(Refused, match="Tick what was opened"):
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
    assert cast.client("helper").press(f"/jobs/{job.pk}/finish/", {}).status_code == 422
    job.refresh_from_db()
    assert job.state == "open"


def test_what_plainly_opens_nothing_is_finished_with_one_tap(cast, car):
    job = written(cast, car, "Polish the bonnet")
    cast.client("helper").press(f"/jobs/{job.pk}/finish/", {})
    job.refresh_from_db()
    assert job.state == "done"


@pytest.mark.parametrize("title", ["Gearbox out for clutch", "Exhaust off and on", "Prop off and on"])
def test_wanted_and_put_down_half_done_something_is_off_the_car(cast, car, title):
    job = written(cast, car, title, rank="wanted")
    steps.start(job, by=cast.helper, at=NOW + HOUR)
    steps.stop(job, by=cast.helper, at=NOW + 2 * HOUR)
    tick_all(cast, NOW + 3 * HOUR)
    told = [reason.sentence for reason in verdict_of(car, NOW + 4 * HOUR).reasons]
    assert f"“{title}” was begun and is not finished: something of it is off the car." in told


def test_a_half_shaft_is_for_safety_and_no_helper_ranks_it_wanted(cast, car):
    assert written(cast, car, "Half shaft out and in", rank="wanted") is None
    assert written(cast, car, "Half shaft out and in").rank == "safety"


@pytest.mark.parametrize("title", ["gas it and do the sill", "new floor pan let in"])
def test_new_metal_brings_the_cautions_of_welding(cast, car, title):
    job = written(cast, car, title)
    page = cast.client("helper").get(f"/jobs/{job.pk}/").content.decode().lower()
    assert "crack" in page and "isolate" in page


def got(cast, name):
    part, place = PartFactory(garage=cast.garage, name=name), PlaceFactory(garage=cast.garage)
    shelf.carry_out(part, "receive", quantity=1, target=place, by=cast.owner, at=NOW)
    return part, place


@pytest.mark.parametrize(
    ("name", "void"),
    [
        *(("Gearbox", "Corner weights"), ("Clutch", "Corner weights"), ("Battery 12 kg", "Corner weights")),
        *(("Drive shaft", "Wheel torque"), ("Half shaft", "Wheel torque"), ("CV joint", "Wheel torque")),
    ],
)
def test_a_part_fitted_by_hand_spoils_what_its_name_says(cast, car, name, void):
    part, place = got(cast, name)
    shelf.carry_out(part, "fit", quantity=1, source=place, car=car, by=cast.helper, at=NOW + HOUR)
    tick_all(cast, NOW + 2 * HOUR)
    assert f"Void: {void}" in " ".join(reason.sentence for reason in verdict_of(car, NOW + 3 * HOUR).reasons)


def test_what_nobody_can_tell_of_a_part_fitted_by_hand_is_asked(cast, car):
    part, place = got(cast, "Prop shaft")
    shelf.carry_out(part, "fit", quantity=1, source=place, car=car, by=cast.helper, at=NOW + HOUR)
    job = Job.objects.get(title="Fitted: Prop shaft")
    assert (job.state, job.kinds_likely) == ("open", True)


def test_a_job_that_hurts_nobody_does_not_hide_a_gearbox(cast, car):
    part, place = got(cast, "Gearbox")
    told = {"work": (1, 2, 3), "systems": ["body"], "rank": "wanted"}
    polish = jobs.add(car, by=cast.owner, at=NOW, title="Polish", **told)
    shelf.carry_out(part, "fit", quantity=1, source=place, car=car, job=polish, by=cast.helper, at=NOW + HOUR)
    assert Job.objects.get(title="Fitted: Gearbox").kinds == ["mass_unit_moved", "engine_mount"]


def test_a_gearbox_that_was_pulled_voids_the_weights(cast, car):
    part, place = got(cast, "Gearbox")
    shelf.carry_out(part, "fit", quantity=1, source=place, car=car, all_along=True, by=cast.owner, at=NOW)
    shelf.carry_out(part, "pull", quantity=1, source=car_place(car), by=cast.helper, at=NOW + HOUR)
    assert "Void: Corner weights" in " ".join(reason.sentence for reason in verdict_of(car, NOW + 2 * HOUR).reasons)
