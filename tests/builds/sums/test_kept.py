"""Sums kept on a car: worked out here again, offered with what the car keeps, void after the work they rest on."""

from datetime import timedelta

import pytest

from builds.bench.catalogue import sum_called
from builds.steps.actions import jobs, steps
from builds.sums import actions
from builds.sums.models import Dimension, KeptSum
from builds.sums.pages.kept import kept_rows
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import take, voided
from tests.factories import NOW, VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
CAR = {"fl": "312.5", "fr": "298", "rl": "287", "rr": "302.5", "wheelbase": "2575", "track_front": "1475"}
TYPED = CAR | {"track_rear": "1480"}


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def keep(client, car, name="corner-weights", **typed):
    return client.press(f"/sums/{name}/keep/{car.pk}/", typed or TYPED)


def done(car, cast, clock, **fields):
    clock.forward(minutes=30)
    job = jobs.add(car, by=cast.owner, at=clock.at, work=(30, 60, 90), **fields)
    steps.start(job, by=cast.owner, at=clock.at)
    clock.forward(minutes=30)
    steps.finish(job, by=cast.owner, at=clock.at)


def test_what_was_worked_out_is_kept_and_read_on_the_car(owner, heron):
    assert keep(owner, heron).status_code == 303
    body = words(owner.get(f"/cars/{heron.pk}/sums/").content.decode())
    assert "Corner weights" in body
    assert "48.8 % ± 0.1" in body
    assert "Sums kept" in owner.get(f"/cars/{heron.pk}/readings/").content.decode()


def test_answers_that_were_sent_along_are_not_believed(owner, heron):
    keep(owner, heron, **TYPED, cross="50")
    (kept,) = KeptSum.objects.all()
    assert ["Cross, front right and rear left", "48.8 % ± 0.1", "cross"] in kept.said
    assert "cross" not in kept.typed


@pytest.mark.parametrize(
    ("figure", "typed"),
    [
        ("wheelbase", "499"),
        ("wheelbase", "8001"),
        ("wheelbase", f"2575 {' ' * 2_000}± 1"),
        ("track_front", "299"),
        ("track_rear", "4001"),
    ],
)
def test_what_a_car_cannot_have_is_refused_in_words(owner, heron, figure, typed):
    answer = keep(owner, heron, **TYPED | {figure: typed})
    assert answer.status_code == 303
    said = words(owner.get(answer["Location"]).content.decode())
    assert any(why in said for why in ("look at it again", "That is too long", "Write at least"))
    assert not KeptSum.objects.exists() and not Dimension.objects.exists()


def test_what_cannot_be_worked_out_is_not_kept(owner, cast, heron):
    answer = keep(owner, heron, **TYPED | {"fl": "x"})
    assert answer.status_code == 303
    assert not KeptSum.objects.exists()
    with pytest.raises(Refused, match="Write a number"):
        actions.keep(heron, sum_called("corner-weights"), TYPED | {"fl": "x"}, by=cast.owner, at=NOW)


def test_the_next_sum_knows_what_the_car_keeps_and_who_wrote_it(owner, cast, heron):
    keep(owner, heron)
    page = owner.get(f"/sums/perch-turns/?car={heron.pk}")
    assert page.status_code == 200
    form = page.context["form"]
    assert form["wheelbase"].value() == "2575"
    assert not form["rate_front"].value()
    body = words(page.content.decode())
    assert f"Wheelbase, front track, rear track: measured by {cast.owner.name}" in body
    assert "Type what is missing" in page.content.decode()


@pytest.mark.parametrize("typed", ["2575", "2575,5", "2575 mm"])
def test_an_inch_garage_reads_what_was_kept_in_millimetres(owner, cast, heron, typed):
    keep(owner, heron, **TYPED | {"wheelbase": typed})
    cast.garage.units = "imperial"
    cast.garage.save()
    form = owner.get(f"/sums/perch-turns/?car={heron.pk}").context["form"]
    assert form["wheelbase"].value() == f"{typed.removesuffix(' mm')} mm"


def test_readings_are_filled_in(owner, cast, heron):
    take(heron, "corner_weights", cast.owner, amount=312_500)
    form = owner.get(f"/sums/corner-weights/?car={heron.pk}").context["form"]
    assert form["fl"].value() == "312.5 kg"
    assert form["rr"].value() == "312.5 kg"


def test_readings_that_work_made_void_are_not_filled_in(owner, cast, heron):
    take(heron, "corner_weights", cast.owner, at=NOW - timedelta(hours=3), amount=312_500)
    voided(heron, cast.owner, "spring_change", hours=1)
    page = owner.get(f"/sums/corner-weights/?car={heron.pk}")
    assert not page.context["form"]["fl"].value()
    assert "the newest reading that stands" not in words(page.content.decode())


def test_work_on_the_springs_makes_a_kept_weighing_void(owner, cast, heron, clock):
    keep(owner, heron)
    done(heron, cast, clock, title="New springs", kinds=["spring_change"], systems=["suspension"])
    body = words(owner.get(f"/cars/{heron.pk}/sums/").content.decode())
    assert "Void: “New springs” was finished" in body


def test_work_in_hand_makes_a_kept_sum_void_already(owner, cast, heron, clock):
    keep(owner, heron)
    clock.forward(minutes=30)
    fields = {"title": "New springs", "work": (30, 60, 90), "kinds": ["spring_change"], "systems": ["suspension"]}
    steps.start(jobs.add(heron, by=cast.owner, at=clock.at, **fields), by=cast.owner, at=clock.at)
    clock.forward(minutes=30)
    assert "Void: “New springs” has been in hand since" in words(owner.get(f"/cars/{heron.pk}/sums/").content.decode())


def test_what_the_work_changed_is_to_be_measured_again(owner, cast, heron, clock):
    rates = {"rate_front": "35", "rate_rear": "30", "cross": "50", "pitch": "2"}
    keep(owner, heron, "perch-turns", **TYPED | rates)
    done(heron, cast, clock, title="New springs", kinds=["spring_change"], systems=["suspension"])
    page = owner.get(f"/sums/perch-turns/?car={heron.pk}")
    assert not page.context["form"]["rate_front"].value()
    assert page.context["form"]["wheelbase"].value() == "2575"
    assert "Wheel rate, front, 35 N/mm, no longer holds: “New springs” was finished" in words(page.content.decode())
    assert "Wheel rate, front" in words(owner.get(f"/cars/{heron.pk}/sums/").content.decode())


def test_who_measured_it_stays_until_somebody_measures_it_again(owner, helper, cast, heron, clock):
    keep(owner, heron)
    clock.forward(minutes=5)
    keep(helper, heron)
    assert {row.by for row in Dimension.objects.on(heron)} == {cast.owner}
    keep(helper, heron, **TYPED | {"wheelbase": "2580"})
    newest = Dimension.objects.on(heron).newest().first()
    assert (newest.figure, newest.typed, newest.by) == ("wheelbase", "2580", cast.helper)
    heron.refresh_from_db()
    assert heron.wheelbase_um == 2_580_000


def test_the_page_of_the_car_knows_its_wheelbase(owner, heron):
    heron.wheelbase_um = 2_500_000
    heron.save()
    page = owner.get(f"/sums/corner-weights/?car={heron.pk}")
    assert page.context["form"]["wheelbase"].value() == "2500 mm"
    assert "Wheelbase: as the page of the car has it." in words(page.content.decode())


def test_springs_are_kept_for_their_axle(owner, heron):
    typed = {"spring": "45", "ratio": "0.9", "corner": "300", "axle": "rear"}
    keep(owner, heron, "spring-frequency", **typed)
    assert not owner.get(f"/sums/spring-frequency/?car={heron.pk}").context["form"]["spring"].value()
    rear = owner.get(f"/sums/spring-frequency/?car={heron.pk}&axle=rear").context["form"]
    assert rear["spring"].value() == "45"
    assert rear["axle"].value() == "rear"


def test_a_kept_sum_of_long_ago_says_its_year(owner, heron):
    keep(owner, heron)
    (row,) = kept_rows(heron, NOW + timedelta(days=400))
    assert row.when.startswith("2 Mar 2027")


def test_polishing_leaves_it(owner, cast, heron, clock):
    keep(owner, heron)
    clock.forward(minutes=30)
    job = jobs.add(heron, by=cast.owner, at=clock.at, title="Polish", work=(30, 60, 90), systems=["body"])
    steps.start(job, by=cast.owner, at=clock.at)
    steps.finish(job, by=cast.owner, at=clock.at)
    assert "Void:" not in words(owner.get(f"/cars/{heron.pk}/sums/").content.decode())
    assert "no longer holds" not in words(owner.get(f"/sums/perch-turns/?car={heron.pk}").content.decode())


def test_the_newest_of_each_is_shown_and_deleted(owner, heron, clock):
    keep(owner, heron)
    clock.forward(minutes=5)
    keep(owner, heron, **TYPED | {"fl": "300"})
    (row,) = owner.get(f"/cars/{heron.pk}/sums/").context["rows"]
    assert row.kept.typed["fl"] == "300"
    assert owner.press(f"/sums/kept/{row.kept.pk}/delete/").status_code == 303
    (row,) = owner.get(f"/cars/{heron.pk}/sums/").context["rows"]
    assert row.kept.typed["fl"] == "312.5"


def test_a_strangers_car_is_not_there(stranger, heron):
    assert stranger.get(f"/sums/fan/?car={heron.pk}").status_code == 404
    assert keep(stranger, heron).status_code == 404


def test_sums_are_offered_where_the_work_is(owner, cast, heron):
    fields = {"title": "Shorter arms", "work": (30, 60, 90), "kinds": ["steering_arm"], "systems": ["steering"]}
    job = jobs.add(heron, by=cast.owner, at=NOW, **fields)
    link = f'href="/sums/steering-linkage/?car={heron.pk}"'
    assert link in owner.get(f"/jobs/{job.pk}/").content.decode()
    assert link in owner.get(f"/cars/{heron.pk}/readings/lock_angles/").content.decode()
    assert f'href="/sums/bolt-torque/?car={heron.pk}"' in owner.get(f"/cars/{heron.pk}/joints/").content.decode()


def test_a_sum_stands_against_what_was_kept_before(owner, cast, heron):
    keep(owner, heron)
    assert owner.get(f"/sums/corner-weights/?car={heron.pk}", TYPED).context["before"] is None
    page = owner.get("/sums/corner-weights/", TYPED | {"fl": "300", "car": heron.pk})
    lines = {label: (then, now) for label, then, now in page.context["before"].lines}
    assert lines["All together"] == ("1200 kg ± 1", "1187.5 kg ± 1")
    assert "On the left" in lines
    assert "not what they were when this was kept" in words(page.content.decode())
