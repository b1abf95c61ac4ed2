"""What the words of a typed job say of it: shown, changeable, read again when it is called otherwise."""

import pytest

from builds.readings.engine.kinds_of_work import KINDS
from builds.work.engine.half_done import in_one_sitting
from builds.work.models.job import Job
from builds.work.models.link import Link
from tests.builds.jobs.test_jobs import add, typed
from tests.factories import JobFactory, LinkFactory, SkillFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron", tape="green")


@pytest.mark.parametrize(
    ("title", "more", "systems", "rank", "said"),
    [
        ("New track rod end", {}, ["steering"], "safety", "By its words it touches steering. Likely done in it: steer"),
        ("New track rod end", {"systems": ["body"]}, ["body"], "safety", "Likely done in it: steering arm"),
        ("Throttle sticks", {}, ["engine"], "safety", "By its words it touches engine"),
        ("Throttle sticks", {"rank": "wanted"}, ["engine"], "wanted", "By its words it touches engine"),
        ("Polish", {}, [], "needed", ""),
    ],
)
def test_where_nobody_ticked_what_it_touches_its_title_says_it(owner, car, title, more, systems, rank, said):
    answer = add(owner, car, title=title, **more)
    job = Job.objects.get()
    assert (job.systems, job.rank) == (systems, rank)
    told = " ".join(str(one) for one in owner.get(answer["Location"]).context["messages"])
    assert said in told and ("Change what is not so;" in told) == bool(said)


def test_paint_by_hand_wants_the_painter_one_sitting_and_asks_how_long_it_cures(owner, car, cast):
    paints = SkillFactory(garage=cast.garage, slug="paint", name="Paint")
    add(owner, car, title="Paint the bonnet")
    add(owner, car, title="Refit the bonnet")
    paint, refit = Job.objects.order_by("pk")
    assert (paint.kinds, paint.skill) == (["paint"], paints)
    assert in_one_sitting(paint) and not in_one_sitting(refit)
    asked = "It cures once it is on, and nobody has said how long"
    assert asked in owner.get(f"/jobs/{paint.pk}/").content.decode()
    assert asked not in owner.get(f"/jobs/{refit.pk}/").content.decode()
    LinkFactory(before=paint, after=refit, wait_minutes=960)
    assert asked not in owner.get(f"/jobs/{paint.pk}/").content.decode()


def test_words_name_kinds_of_work_readings_and_the_skill_for_it(owner, car, cast):
    welds = SkillFactory(garage=cast.garage, slug="ours", name="Welder")
    paints = SkillFactory(garage=cast.garage, slug="paint", name="Paint")
    add(owner, car, title="Weld the exhaust hanger", systems=["exhaust"])
    add(owner, car, title="Spray the bonnet with 2K lacquer", systems=["paint"])
    add(owner, car, title="Renew the fuel hoses", systems=["fuel"])
    add(owner, car, title="Torque wheels")
    add(owner, car, title="Cut a bracket", kinds=["hot_work"])
    add(owner, car, title="Fit the harness", systems=["restraint"])
    add(owner, car, title="Harness out", systems=["restraint"])
    weld, coat, fuel, torque, cut, harness, out = Job.objects.order_by("pk")
    assert (weld.kinds, weld.kinds_likely, weld.skill) == (["hot_work"], True, welds)
    assert (coat.kinds, coat.kinds_likely, coat.skill) == (["paint", "two_pack"], True, paints)
    assert (fuel.kinds, fuel.rank, fuel.skill) == (["fuel_line"], "safety", None)
    assert (torque.measures, torque.kinds, torque.systems) == (["wheel_torque"], [], ["wheels"])
    assert (cut.kinds_likely, cut.skill) == (False, welds)
    # No sparks near new fuel lines, none near fresh paint, and none near belts that go in.
    before = set(Link.objects.by_order().filter(before=weld).values_list("after", flat=True))
    assert {fuel.pk, coat.pk} <= before
    assert Link.objects.by_order().filter(before__in=[weld, coat, cut], after=harness).exists()
    assert not Link.objects.by_order().filter(after=out).exists()
    page = " ".join(owner.get(f"/jobs/{weld.pk}/").content.decode().split())
    assert "Before the first spark" in page and f"Likely done in it: {KINDS['hot_work'].label}. The finish" in page
    # The skill was only offered: whoever says that anybody can is not asked again.
    drawn = owner.get(f"/jobs/{weld.pk}/edit/").context["form"]
    owner.press(f"/jobs/{weld.pk}/edit/", {**typed(car, title=weld.title, kinds=["hot_work"]), "drawn": drawn.drawn})
    weld.refresh_from_db()
    assert (weld.skill, weld.kinds, weld.kinds_likely) == (None, ["hot_work"], True)


def test_a_job_that_is_called_otherwise_is_read_again(helper, cast, car):
    add(helper, car, title="Look at it", likely="1")
    job = Job.objects.get()
    assert (job.systems, job.kinds, job.rank) == ([], [], "needed")
    helper.press(f"/jobs/{job.pk}/edit/", typed(car, title="Bleed the brakes"))
    job.refresh_from_db()
    assert (job.systems, job.rank) == (["brakes"], "safety")
    assert (job.kinds, job.kinds_likely, job.measures) == (["hydraulics_opened"], True, ["brake_bleed"])
    # What was only guessed may be said better by anybody; lowering it is the owner's.
    told = {"title": "Bleed the brakes", "systems": ["brakes"], "kinds": ["friction_parts"]}
    assert helper.press(f"/jobs/{job.pk}/edit/", typed(car, **told)).status_code == 303
    job.refresh_from_db()
    assert (job.kinds, job.kinds_likely, job.rank) == (["friction_parts"], False, "safety")
    told |= {"title": "Polish", "systems": [], "kinds": []}
    assert helper.press(f"/jobs/{job.pk}/edit/", typed(car, **told)).status_code == 422


def test_a_title_that_names_steering_ranks_lower_with_a_reason_only(owner, car):
    answer = add(owner, car, title="New track rod end", rank="wanted")
    assert answer.context["form"].errors["lowered_because"] and not Job.objects.exists()


def test_wheels_are_torqued_without_a_word_of_what_that_opened_and_still_looked_at(owner, helper, car):
    add(helper, car, title="Torque wheels")
    job = Job.objects.get()
    assert helper.press(f"/jobs/{job.pk}/finish/", {"told": "True"}).status_code == 303
    job.refresh_from_db()
    assert (job.state, job.nothing_because) == ("done", "")
    assert f"/jobs/{job.pk}/sign/" in owner.get(f"/jobs/{job.pk}/").content.decode()


def test_what_was_likely_is_no_longer_taken_off_once_hands_were_on_it(helper, car):
    add(helper, car, title="Bleed the brakes")
    job = Job.objects.get()
    helper.press(f"/jobs/{job.pk}/start/")
    told = typed(car, title="Bleed the brakes", systems=["brakes"], kinds=["friction_parts"])
    assert helper.press(f"/jobs/{job.pk}/edit/", told).status_code == 422
    job.refresh_from_db()
    assert job.kinds == ["hydraulics_opened"]


def test_what_a_job_of_the_car_does_already_is_written_down_only_by_somebodys_word(owner, car):
    torque = JobFactory(
        vehicle=car, title="Torque the wheels by hand", measures=["wheel_torque"], recipe="differential"
    )
    path = f"/cars/{car.pk}/jobs/add/"
    assert "once_more" not in owner.get(path).context["form"].fields
    answer = add(owner, car, title="Wheels torqued")
    assert "“Torque the wheels by hand” is on Heron already and does this." in answer.content.decode()
    assert Job.objects.get() == torque
    assert "once_more" not in add(owner, car, title="").context["form"].fields
    add(owner, car, title="Wheels torqued", once_more="on")
    add(owner, car, title="Torque wheels after the first run")
    add(owner, car, title="Wheel alignment")
    assert Job.objects.count() == 4
    add(owner, car, title="Set toe")
    add(owner, car, title="Check toe")
    assert Job.objects.count() == 4
