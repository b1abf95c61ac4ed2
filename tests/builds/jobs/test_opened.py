"""Findings and jobs written down by hand make void what they opened: their finish asks for it."""

import pytest

from builds.steps.actions import findings, jobs, steps
from builds.steps.engine.opened import WHY_NOTHING
from builds.steps.facts.opened import asks
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.factories import NOW, HoldPointFactory, JobFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
ASKED = "Tick what was opened, moved or changed, or say that nothing was."


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def bleeding(cast, car):
    return JobFactory(
        vehicle=car, title="Bleed", rank="safety", systems=["brakes"], state="in_hand", made_by=cast.owner,
        kinds=["hydraulics_opened", "crash"],
    )  # fmt: skip


def finding(during, cast, **more):
    return findings.found(during, "Chafed hose", hurts=False, by=cast.helper, at=NOW, **more)


def test_a_finding_touches_what_its_job_touches_and_is_as_urgent(cast, bleeding):
    opened = finding(bleeding, cast)
    assert (opened.systems, opened.rank, opened.kinds_likely) == (["brakes"], "safety", True)
    assert opened.kinds == ["hydraulics_opened"], "a crash happened to the car, not to the finding"


@pytest.mark.parametrize(("rank", "hurts", "expected"), [("needed", False, "needed"), ("wanted", False, "needed"),
                                                         ("wanted", True, "safety")])  # fmt: skip
def test_something_seen_is_needed_at_least_and_safety_where_it_hurts(cast, car, rank, hurts, expected):
    during = JobFactory(vehicle=car, rank=rank, systems=["cooling"], state="in_hand")
    opened = findings.found(during, "Split hose", hurts=hurts, by=cast.helper, at=NOW)
    assert (opened.rank, opened.systems) == (expected, ["cooling"])


def test_a_finding_is_for_safety_by_what_is_only_likely_done_in_it(cast, car):
    during = JobFactory(vehicle=car, rank="needed", systems=["cooling"], state="in_hand")
    opened = findings.found(during, "Flush it all", hurts=False, by=cast.helper, at=NOW)
    assert (opened.rank, opened.systems, opened.kinds) == ("safety", [], ["hydraulics_opened"])


def test_a_finding_on_lowered_work_on_brakes_is_safety(cast, car):
    lowered = {"rank": "wanted", "systems": ["brakes"], "lowered_because": "paint only"}
    during = JobFactory(vehicle=car, state="in_hand", **lowered)
    assert finding(during, cast).rank == "safety"


def test_its_finish_asks_with_the_likely_ticked(owner, helper, cast, bleeding):
    opened = finding(bleeding, cast)
    steps.finish(bleeding, by=cast.owner, at=NOW)  # a crash is made safe before anything else
    with pytest.raises(Refused, match="Tick what was opened"):
        steps.finish(opened, by=cast.helper, at=NOW)
    page = helper.get(f"/jobs/{opened.pk}/").content.decode()
    assert f'href="/jobs/{opened.pk}/finish/"' in page and f'action="/jobs/{opened.pk}/finish/"' not in page
    form = helper.get(f"/jobs/{opened.pk}/finish/").context["form"]
    first = [slug for slug, _ in form.fields["kinds"].choices][:2]
    assert (form["kinds"].value(), first) == (["hydraulics_opened"], ["hydraulics_opened", "friction_parts"])
    groups = {group.label: {tick.data["value"] for tick in group.ticks} for group in form["kinds"].groups}
    assert "crash" not in set().union(*groups.values())
    assert "hydraulics_opened" in groups[""] and "steering_arm" in groups["Steering"] and "Brakes" not in groups
    helper.press(f"/jobs/{opened.pk}/finish/", {"kinds": ["hydraulics_opened", "wheel_off"], "told": "True"})
    opened.refresh_from_db()
    assert (opened.state, opened.kinds, opened.kinds_likely) == ("done", ["hydraulics_opened", "wheel_off"], False)


@pytest.mark.parametrize(("title", "asked"), [("New pads, torque the wheels", True), ("Torque the wheels", False)])
def test_work_beside_a_reading_is_asked_for_although_its_likely_kinds_were_unticked(car, title, asked):
    job = JobFactory(vehicle=car, title=title, systems=["wheels"], rank="safety", measures=["wheel_torque"], kinds=[])
    assert asks(job) is asked


def test_what_was_only_likely_may_be_unticked_by_a_helper(helper, cast, bleeding):
    opened = finding(bleeding, cast)
    steps.finish(bleeding, by=cast.owner, at=NOW)
    answer = helper.press(f"/jobs/{opened.pk}/finish/", {"told": "True"})
    assert (answer.status_code, answer.context["form"].errors["kinds"]) == (422, [ASKED])
    answer = helper.press(f"/jobs/{opened.pk}/finish/", {"told": "True", "nothing": "on", "because": "x"})
    assert (answer.status_code, answer.context["form"].errors["because"]) == (422, [WHY_NOTHING])
    because = "only wiped dry and looked at"
    helper.press(f"/jobs/{opened.pk}/finish/", {"told": "True", "nothing": "on", "because": because})
    opened.refresh_from_db()
    assert (opened.state, opened.kinds, opened.nothing_because) == ("done", [], because)
    assert because in helper.get(f"/jobs/{opened.pk}/").content.decode()


def test_what_somebody_wrote_down_is_unticked_by_the_owner_alone(owner, helper, cast, bleeding):
    with pytest.raises(Refused, match=r"“Bleed” was begun with this: .*Only the owner takes it off"):
        steps.finish(bleeding, by=cast.helper, at=NOW, kinds=["wheel_off"])
    steps.finish(bleeding, by=cast.owner, at=NOW, kinds=["wheel_off"])
    assert bleeding.kinds == ["wheel_off"]


@pytest.mark.parametrize(("more", "asks"), [
    ({"rank": "safety"}, True),
    ({"systems": ["steering"], "rank": "wanted", "lowered_because": "paint only"}, True),
    ({"rank": "safety", "recipe": "arm"}, False),
    ({"rank": "needed", "systems": ["engine"]}, False),
    ({"rank": "needed", "systems": ["engine"], "kinds_likely": True}, True),
    ({"systems": ["steering"], "rank": "safety", "kinds": ["paint"]}, False),
    ({"systems": ["steering"], "rank": "safety", "kinds": ["paint"], "kinds_likely": True}, True),
])  # fmt: skip
def test_which_work_is_not_over_before_it_says_what_it_opened(helper, cast, car, more, asks):
    job = JobFactory(vehicle=car, **{"kinds": [], **more})
    answer = helper.press(f"/jobs/{job.pk}/finish/")
    job.refresh_from_db()
    assert job.state == ("open" if asks else "done")
    if asks:
        assert (answer.status_code, answer.context["form"].errors["kinds"]) == (422, [ASKED])
        assert "Split pin out" in answer.content.decode()


def test_ticked_and_nothing_at_once_is_said_at_the_field_and_an_unknown_kind_is_refused(helper, cast, car):
    job = JobFactory(vehicle=car, rank="safety", kinds=[])
    answer = helper.press(f"/jobs/{job.pk}/finish/", {"told": "True", "nothing": "on", "kinds": ["jam_nut"]})
    assert answer.context["form"].errors["nothing"] == ["Either something was opened, or nothing was."]
    with pytest.raises(Refused, match="welding is no kind of work"):
        steps.finish(job, by=cast.helper, at=NOW, kinds=["welding"])
    assert Job.objects.get().state == "open"


def test_a_job_that_stops_at_its_hold_point_has_said_it_too(helper, car):
    job = JobFactory(vehicle=car, rank="safety", kinds=[])
    HoldPointFactory(job=job)
    helper.press(f"/jobs/{job.pk}/finish/", {"told": "True", "kinds": ["jam_nut"]})
    job.refresh_from_db()
    assert (job.state, job.kinds) == ("held", ["jam_nut"])


WORK_AND_DRIVE = ["spring_change", "driven"]
APART = "The drive is a job of its own: it comes after the work, and shows whether that holds."


def by_hand(car, cast, kinds):
    return jobs.add(car, by=cast.owner, at=NOW, title="Springs", work=(30, 60, 90), kinds=kinds)


def test_work_and_the_drive_after_it_are_two_jobs_however_they_are_written(owner, cast, car):
    with pytest.raises(Refused, match="The drive is a job of its own"):
        by_hand(car, cast, WORK_AND_DRIVE)
    job = by_hand(car, cast, ["spring_change"])
    with pytest.raises(Refused, match="The drive is a job of its own"):
        steps.finish(job, by=cast.owner, at=NOW, kinds=WORK_AND_DRIVE)
    form = {"title": "Springs", "vehicle": car.pk, "likely": "60 min", "hands": "1", "weight": "1"}
    for path in (f"/cars/{car.pk}/jobs/add/", f"/jobs/{job.pk}/edit/"):
        answer = owner.press(path, {**form, "kinds": WORK_AND_DRIVE, "once_more": "on"})
        assert answer.context["form"].errors["kinds"] == [APART]
    assert Job.objects.get().kinds == ["spring_change"]


@pytest.mark.parametrize("kinds", [["driven"], ["driven", "engine_run"], ["driven", "first_run"]])
def test_what_only_runs_is_one_job(cast, car, kinds):
    assert by_hand(car, cast, kinds).kinds == kinds


def test_one_that_has_both_from_before_is_changed_in_other_things(owner, cast, car):
    job = JobFactory(vehicle=car, title="Springs", kinds=WORK_AND_DRIVE, made_by=cast.owner)
    form = {"title": "Springs, both", "vehicle": car.pk, "likely": "60 min", "hands": "1", "weight": "1"}
    assert owner.press(f"/jobs/{job.pk}/edit/", {**form, "kinds": WORK_AND_DRIVE}).status_code == 303
    assert Job.objects.get().title == "Springs, both"
