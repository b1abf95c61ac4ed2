"""Links and kept stations: added, changed, taken away; circles are refused and spelled out."""

from datetime import timedelta

import pytest

from builds.jobs.forms.links import LinkForm, StationHoldForm
from builds.work.models.job import MOST_MINUTES, Job
from builds.work.models.link import Link, StationHold
from tests.factories import NOW, JobFactory, LinkFactory, StationFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def weld(car):
    return JobFactory(vehicle=car, title="Weld the arm")


@pytest.fixture
def prime(car):
    return JobFactory(vehicle=car, title="Prime the arm")


def link(client, job, linked, **more):
    data = {"way": "before", "other": linked.pk, **more}
    return client.press(f"/jobs/{job.pk}/links/add/", data)


def test_a_link_with_its_wait_and_why(owner, weld, prime):
    answer = link(owner, prime, weld, wait_minutes="1 h 30", why="it cools")
    assert answer.status_code == 303
    made = Link.objects.get()
    assert (made.before, made.after, made.wait_minutes, made.why) == (weld, prime, 90, "it cools")
    view = owner.get(f"/jobs/{weld.pk}/").context["view"]
    assert [(line.title, line.wait) for line in view.waiting] == [("Prime the arm", "1 h 30")]


def test_a_link_the_other_way_round(owner, weld, prime):
    link(owner, weld, prime, way="after")
    assert Link.objects.get().after == prime


def test_a_circle_is_refused_and_spelled_out(owner, car, weld, prime):
    refit = JobFactory(vehicle=car, title="Refit the arm")
    LinkFactory(before=weld, after=prime)
    LinkFactory(before=prime, after=refit)
    answer = link(owner, weld, refit, why="kept")
    assert answer.status_code == 422
    assert answer.context["form"].errors["other"] == [
        "That would be a circle: “Weld the arm” waits for “Refit the arm”, which waits for “Prime the"
        " arm”, which waits for “Weld the arm”."
    ]
    assert 'value="kept"' in answer.content.decode()
    assert Link.objects.count() == 2


def test_a_second_link_of_the_same_two_is_refused(owner, weld, prime):
    LinkFactory(before=weld, after=prime)
    answer = link(owner, prime, weld)
    assert answer.context["form"].errors["other"] == ["“Prime the arm” waits for “Weld the arm” already."]


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("other", "", "Choose the other job."),
        ("other", "999999", "That is not in this garage: choose from the list."),
        ("wait_minutes", "overnight", "Write a time such as 1.5, 1:30, 90 min or 1 h 30."),
        ("why", "x" * 81, "Ensure this value has at most 80 characters (it has 81)."),
    ],
)
def test_what_is_wrong_is_said_at_its_field(owner, weld, prime, field, value, sentence):
    answer = link(owner, prime, weld, **{field: value})
    assert (answer.status_code, answer.context["form"].errors[field]) == (422, [sentence])
    assert not Link.objects.exists()


def test_jobs_of_another_garage_and_the_job_itself_cannot_be_linked(owner, cast, weld):
    theirs = JobFactory(vehicle=VehicleFactory(garage=cast.stranger.garage))
    for other in (theirs, weld):
        assert link(owner, weld, other).status_code == 422


def test_a_job_of_another_car_can(owner, cast, weld):
    donor = JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Badger"), title="Pull it")
    assert link(owner, weld, donor).status_code == 303
    assert owner.get(f"/jobs/{weld.pk}/").context["view"].waits_for[0].vehicle == "Badger"


def test_a_wait_is_changed_and_then_no_longer_that_of_the_sheet(owner, weld, prime):
    made = LinkFactory(before=weld, after=prime, wait_minutes=960, cure="epoxy-primer")
    data = {"wait_minutes": "20 h", "why": "it is cold"}
    assert owner.press(f"/links/{made.pk}/", data).status_code == 303
    made.refresh_from_db()
    assert (made.wait_minutes, made.why, made.cure) == (1200, "it is cold", "")


def test_a_link_is_taken_away(owner, weld, prime):
    made = LinkFactory(before=weld, after=prime)
    assert owner.press(f"/links/{made.pk}/delete/")["Location"] == f"/jobs/{prime.pk}/"
    assert not Link.objects.exists()


def test_a_station_is_kept_from_a_job_until_another(owner, cast, weld, prime):
    bay = StationFactory(garage=cast.garage, name="Bay")
    LinkFactory(before=weld, after=prime)
    answer = owner.press(f"/jobs/{weld.pk}/stations/add/", {"station": bay.pk, "last": prime.pk})
    assert answer.status_code == 303
    kept = StationHold.objects.get()
    assert (kept.station, kept.first, kept.last) == (bay, weld, prime)
    assert "Bay" in owner.get(f"/jobs/{prime.pk}/").content.decode()
    owner.press(f"/kept/{kept.pk}/delete/")
    assert not StationHold.objects.exists()


def test_a_station_is_kept_only_until_a_job_that_comes_after(owner, cast, weld, prime):
    bay = StationFactory(garage=cast.garage)
    answer = owner.press(f"/jobs/{weld.pk}/stations/add/", {"station": bay.pk, "last": prime.pk})
    assert answer.context["form"].errors["last"] == [
        "“Prime the arm” does not come after “Weld the arm”: link them first."
    ]


def test_another_garages_station_and_another_cars_job_are_refused(owner, cast, weld):
    bay = StationFactory(garage=cast.stranger.garage)
    other = JobFactory(vehicle=VehicleFactory(garage=cast.garage))
    answer = owner.press(f"/jobs/{weld.pk}/stations/add/", {"station": bay.pk, "last": other.pk})
    assert set(answer.context["form"].errors) == {"station", "last"}


def test_who_may(cast, weld, prime):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in wanted.items():
        Link.objects.all().delete()
        client = cast.client(who)
        assert link(client, prime, weld).status_code == status
        made = LinkFactory(before=Job.objects.create(**_plain(weld)), after=prime)
        assert client.press(f"/links/{made.pk}/").status_code == status
        assert client.press(f"/links/{made.pk}/delete/").status_code == status


def _plain(job):
    names = ("vehicle", "title", "low_minutes", "likely_minutes", "high_minutes", "made_by")
    return {**{name: getattr(job, name) for name in names}, "made_at": job.made_at}


def test_jobs_of_the_same_name_are_told_apart_by_their_recipe(cast, weld, car):
    JobFactory(vehicle=car, title="Torque the wheels", recipe="brake-overhaul")
    JobFactory(vehicle=car, title="Torque the wheels", recipe="damper-spring-change")
    shown = [label for _, label in LinkForm(member=cast.owner, job=weld, at=NOW).fields["other"].choices]
    assert shown == [
        "Choose",
        "Heron: Torque the wheels (Brake overhaul and bleed)",
        "Heron: Torque the wheels (Damper and spring change)",
    ]
    ended = NOW - timedelta(minutes=MOST_MINUTES)
    JobFactory(vehicle=car, title="Done long ago", state="done", finished_at=ended - timedelta(minutes=1))
    JobFactory(vehicle=car, title="It may cure still", state="done", finished_at=ended)
    shown = [label for _, label in LinkForm(member=cast.owner, job=weld, at=NOW).fields["other"].choices]
    assert "Heron: It may cure still" in shown and "Heron: Done long ago" not in shown
    until = [label for _, label in StationHoldForm(member=cast.owner, job=weld).fields["last"].choices]
    assert "Weld the arm" in until
