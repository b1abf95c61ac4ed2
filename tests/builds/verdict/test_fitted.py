"""A part fitted by hand is work as one taken off is: what that mostly opens no longer holds, and somebody looks."""

from datetime import timedelta

import pytest

from builds.shelf.actions import shelf
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from parts.actions.places import house_place
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import KINDS, fit_moth, sign_bleed, tick_all
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.django_db
HOUR = timedelta(hours=1)


@pytest.fixture
def car(cast, now):
    return fit_moth(cast).vehicle


@pytest.fixture
def rack(cast):
    return PlaceFactory(garage=cast.garage, name="Rack A")


def got(cast, rack, name="Front caliper left", systems=("brakes",)):
    part = PartFactory(garage=cast.garage, name=name, systems=list(systems), single=True, condition="good")
    supplier = house_place(cast.garage, "supplier")
    shelf.carry(part, "receive", 1, supplier, rack, by=cast.owner, at=NOW)
    return part


def fit(part, rack, car, by, **more):
    told = {"quantity": 1, "source": rack, "car": car, "by": by, "at": NOW + HOUR}
    return shelf.carry_out(part, "fit", **{**told, **more})


def sentences(car, at=NOW + 2 * HOUR):
    return [reason.sentence for reason in verdict_of(car, at).reasons]


def test_fitting_opens_what_taking_off_does_until_it_is_measured_and_signed(cast, car, rack, helper):
    part = got(cast, rack)
    sent = {"quantity": 1, "source": rack.pk, "car": car.pk}
    page = helper.press(f"/parts/{part.pk}/move/fit/", sent, follow=True).content.decode()
    assert "“Fitted: Front caliper left” is work on Moth: somebody else looks at it" in page
    job = Job.objects.get(title="Fitted: Front caliper left")
    assert (job.rank, job.state, job.systems) == ("safety", "done", ["brakes"])
    said = " ".join(sentences(car))
    assert "Void: Brake bleed" in said and "Void: Wheel torque" in said and "nobody has signed it" in said
    for kind in KINDS:
        take(car, kind, cast.owner, at=NOW + 3 * HOUR)
    tick_all(cast, NOW + 3 * HOUR)
    sign_bleed(cast.helper, NOW + 3 * HOUR)
    assert len(sentences(car, NOW + 4 * HOUR)) == 1
    steps.sign(job, by=cast.owner, at=NOW + 4 * HOUR)
    assert verdict_of(car, NOW + 4 * HOUR).state == "fit"


def test_the_owner_alone_says_that_it_was_on_already_and_of_no_job(cast, car, rack, owner, helper):
    part = got(cast, rack)
    wash = jobs.add(car, by=cast.owner, at=NOW, title="Wash", work=(1, 2, 3), systems=["body"])
    for by, job, said in ((cast.helper, None, "Only the owner says"), (cast.owner, wash, "for no job")):
        with pytest.raises(Refused, match=said) as refused:
            fit(part, rack, car, by, job=job, all_along=True)
        assert refused.value.field == "all_along"
    path = f"/parts/{part.pk}/move/fit/"
    assert "all_along" in owner.get(path).context["form"].fields
    assert "all_along" not in helper.get(path).context["form"].fields
    Job.objects.all().delete()
    assert fit(part, rack, car, cast.owner, all_along=True).why == "It was on the car already"
    assert verdict_of(car, NOW + 2 * HOUR).state == "fit"


def test_a_job_that_hurts_nobody_does_not_hide_it_and_one_for_safety_tells_itself(cast, car, rack):
    told = {"by": cast.owner, "at": NOW, "work": (1, 2, 3)}
    polish = jobs.add(car, title="Polish", systems=["body"], rank="wanted", **told)
    fit(got(cast, rack), rack, car, cast.helper, job=polish)
    assert Job.objects.filter(title="Fitted: Front caliper left").exists()
    overhaul = jobs.add(car, title="Overhaul", systems=["brakes"], kinds=["hydraulics_opened"], **told)
    fit(got(cast, rack, "Master cylinder"), rack, car, cast.helper, job=overhaul)
    fit(got(cast, rack, "Mirror glass", ("body",)), rack, car, cast.helper, job=polish)
    assert Job.objects.filter(title__startswith="Fitted: ").count() == 1


def test_a_job_that_hurts_nobody_does_not_hide_what_only_the_name_says(cast, car, rack):
    polish = jobs.add(car, by=cast.owner, at=NOW, title="Polish", work=(1, 2, 3), systems=["body"], rank="wanted")
    fit(got(cast, rack, systems=()), rack, car, cast.helper, job=polish)
    assert Job.objects.get(title="Fitted: Front caliper left").rank == "safety"


@pytest.mark.parametrize(("name", "systems"), [("Widget", []), ("Wheel nut", ["wheels"])])
def test_a_part_of_which_nobody_says_what_it_is_part_of_is_not_known(cast, car, rack, name, systems):
    fit(got(cast, rack, name, ()), rack, car, cast.helper)
    job = Job.objects.get(title=f"Fitted: {name}")
    assert (job.systems, job.state) == (systems, "done" if systems else "open")
    assert verdict_of(car, NOW + 2 * HOUR).state == "not_fit"


def test_undoing_it_drops_its_work_and_the_owner_answers_for_the_car(cast, car, rack):
    move = fit(got(cast, rack), rack, car, cast.helper)
    shelf.undo(move, by=cast.helper, at=NOW + 2 * HOUR)
    job = Job.objects.get(title="Fitted: Front caliper left")
    assert job.state == "dropped"
    assert any("“Fitted: Front caliper left” was" in said for said in sentences(car, NOW + 3 * HOUR))
    steps.whole(job, by=cast.owner, at=NOW + 3 * HOUR, reason="it never left the shelf")
    assert not any(said.startswith("“Fitted: ") for said in sentences(car, NOW + 3 * HOUR))


def test_undone_it_drops_the_work_that_it_wrote_beside_a_job_that_hurts_nobody(cast, car, rack):
    long = "Front caliper left " * 6
    told = {"by": cast.owner, "at": NOW, "work": (1, 2, 3)}
    polish = jobs.add(car, title="Polish", systems=["body"], rank="wanted", **told)
    move = fit(got(cast, rack, long.strip()), rack, car, cast.helper, job=polish)
    shelf.undo(move, by=cast.helper, at=NOW + 2 * HOUR)
    assert Job.objects.get(title__startswith="Fitted: ").state == "dropped"
    polish.refresh_from_db()
    assert polish.state == "open"


def test_it_is_undone_though_its_work_was_dropped_before(cast, car, rack):
    move = fit(got(cast, rack, "Widget", ()), rack, car, cast.helper)
    job = Job.objects.get(title="Fitted: Widget")
    steps.drop(job, by=cast.owner, at=NOW + 2 * HOUR, reason="it was never fitted")
    shelf.undo(move, by=cast.helper, at=NOW + 3 * HOUR)
    assert move.part.balances.get(place__kind="shelf").quantity == 1
