"""Readings: taken, void because of a job, compared, struck out; who may, and bad input."""

import pytest
from django.urls import reverse

from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput
from builds.readings.facts.kinds import kind_of
from builds.readings.facts.readings import readings_of
from builds.readings.models.reading import OwnKind, Reading, ReadingValue
from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import HOUR, require, take, text, url, voided
from tests.conftest import queries
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.pages import written

pytestmark = pytest.mark.django_db
TOE = {
    "value_fl": "0,05",
    "value_fr": "0.10",
    "instrument": "string box",
    "fuel_ml": "20",
    "driver": "aboard",
    "front_pa": "1,9",
    "rear_pa": "1.8",
    "floor": "levelled",
}


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_taken_with_comma_and_point_kept_as_typed_and_shown_in_one_style(helper, cast, car):
    answer = helper.press(url("reading_add", car, "toe_front"), TOE)
    assert (answer.status_code, answer["Location"]) == (303, url("reading_page", car, "toe_front"))
    reading = Reading.objects.get()
    assert (reading.by, reading.at, reading.fuel_ml) == (cast.helper, NOW, 20_000)
    assert (reading.front_pa, reading.rear_pa) == (190_000, 180_000)
    assert {row.field: (row.amount, row.typed) for row in reading.values.all()} == {
        "fl": (50, "0,05"),
        "fr": (100, "0.10"),
    }
    page = text(helper, answer["Location"])
    for words in ("0.05°", "0.1°", "Total toe", "0.15°", "string box", "levelled"):
        assert words in page


def test_toe_typed_as_a_difference_is_kept_as_an_angle_and_shown_as_both(helper, cast, car):
    data = {**TOE, "value_fl": "1,5 mm at 470 mm"}
    assert helper.press(url("reading_add", car, "toe_front"), data).status_code == 303
    value = ReadingValue.objects.get(field="fl")
    assert (value.amount, value.typed) == (183, "1,5 mm at 470 mm")
    assert "0.183° (1,5 mm at 470 mm)" in text(helper, url("reading_page", car, "toe_front"))
    again = f"{url('reading_add', car, 'toe_front')}?from={value.reading_id}"
    assert 'value="1,5 mm at 470 mm"' in text(helper, again)


def test_a_garage_in_imperial_types_pounds_and_keeps_grams(owner, cast, car):
    cast.garage.units = "imperial"
    cast.garage.save()
    data = {f"value_{corner}": "700 1/2" for corner in ("fl", "fr", "rl", "rr")}
    assert owner.press(url("reading_add", car, "corner_weights"), data).status_code == 303
    value = ReadingValue.objects.first()
    assert (value.amount, value.unit) == (317_741, "lb")
    assert "700.5 lb" in text(owner, url("reading_page", car, "corner_weights"))
    cast.garage.units = "metric"
    cast.garage.save()
    assert "317.74 kg" in text(owner, url("reading_page", car, "corner_weights"))


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("NaN", "Write a number such as 12.5 or 12,5, without marks for thousands."),
        ("99", "99°: is that right? Mostly it lies between -3° and 3°."),
        ("181", "It must lie between -180° and 180°."),
        ("1,250", "Is that 1250 or 1.250? Write it without a comma."),
        ("5 kg", "Write the figure in °."),
        ("1 mm", "Say where it was read too, such as 1 mm at 400 mm, or write degrees."),
        ("", "This field is required."),
        ("1\x00", "Null characters are not allowed."),
        ("5" * 5000, "Ensure this value has at most 24 characters (it has 5000)."),
    ],
)
def test_a_figure_that_is_none_is_refused_at_its_field_and_kept(helper, car, typed, sentence):
    answer = helper.press(url("reading_add", car, "toe_front"), {**TOE, "value_fl": typed})
    assert answer.status_code == 422
    assert sentence in answer.context["form"].errors["value_fl"]
    assert "0.10" in answer.content.decode()
    assert not Reading.objects.exists()


def test_a_time_to_come_is_refused(helper, car):
    answer = helper.press(url("reading_add", car, "toe_front"), {**TOE, "taken_at": "2027-03-02T17:01"})
    assert answer.status_code == 422
    assert answer.context["form"].errors["taken_at"] == ["That time is still to come: choose one that has passed."]


def test_people_and_jobs_of_others_are_not_in_the_lists(helper, cast, car):
    job = JobFactory(vehicle=VehicleFactory(garage=cast.garage), state="in_hand")
    data = {**TOE, "who": cast.stranger.pk, "last_of": job.pk}
    JobFactory(vehicle=car, state="in_hand", kinds=["jam_nut"])
    answer = helper.press(url("reading_add", car, "toe_front"), data)
    assert answer.status_code == 422
    assert set(answer.context["form"].errors) == {"who", "last_of"}


def test_a_viewer_looks_and_does_not_write_and_a_stranger_sees_nothing(viewer, stranger, cast, car):
    reading = take(car, "camber", cast.owner)
    for address in (url("reading_add", car, "camber"), f"/readings/{reading.pk}/strike/"):
        assert viewer.press(address, TOE).status_code == 403
        assert stranger.press(address, TOE).status_code == 404
    page = text(viewer, url("reading_page", car, "camber"))
    assert "Strike it out" not in page and "Measure" not in page
    assert stranger.get(url("reading_list", car)).status_code == 404


@pytest.mark.parametrize("key", ["nothing", "own-99999", "own-x", "own-" + "9" * 30])
def test_a_kind_that_is_not_there_is_404(owner, car, key):
    for name in ("reading_page", "reading_add", "target_edit"):
        assert owner.get(url(name, car, key)).status_code == 404


def test_another_garages_own_kind_is_404(owner, cast, car):
    theirs = OwnKind.objects.create(garage=cast.stranger.garage, name="Secret")
    assert owner.get(url("reading_page", car, theirs.key)).status_code == 404


def test_starting_from_an_earlier_one_fills_in_its_figures(helper, cast, car):
    earlier = take(car, "toe_front", cast.owner, at=NOW - HOUR, amount=120)
    page = text(helper, f"{url('reading_add', car, 'toe_front')}?from={earlier.pk}")
    assert 'value="0.12"' in page and 'value="string box"' in page and 'value="20"' in page
    other = take(VehicleFactory(garage=cast.garage), "toe_front", cast.owner, amount=130)
    for wrong in (other.pk, "x", "9" * 40, ""):
        answer = helper.get(f"{url('reading_add', car, 'toe_front')}?from={wrong}")
        assert answer.status_code == 200 and 'value="0.13"' not in answer.content.decode()


def test_void_says_which_job_and_when(owner, cast, car):
    take(car, "toe_front", cast.owner, at=NOW - 2 * HOUR)
    job = voided(car, cast.owner, "steering_arm")
    page = text(owner, url("reading_list", car))
    assert "“Replace the steering arm” was finished Tue 2 Mar 16:00, and it has not been taken since." in page
    assert reverse("job_page", args=[job.pk]) in page
    assert "This job voids: " in text(owner, reverse("job_page", args=[job.pk]))


def test_what_was_out_when_it_went_void_stays_readable_struck_through(owner, cast, car):
    limit = TargetInput("most", 50, None, "0.05")
    readings.set_targets(car, kind_of(cast.garage, "toe_front"), {"fl": limit})
    take(car, "toe_front", cast.owner, at=NOW - 2 * HOUR)
    voided(car, cast.owner, "steering_arm")
    for page in (url("reading_list", car), url("reading_page", car, "toe_front")):
        assert "Out of its limits then: <s>Front left 0.1°" in text(owner, page)


def test_the_last_act_of_a_job_is_void_once_that_job_was_opened_again_and_redone(cast, car):
    told = {"by": cast.owner}
    job = jobs.add(car, at=NOW - 9 * HOUR, title="Arm", work=(1, 2, 3), kinds=["steering_arm"], **told)
    steps.start(job, at=NOW - 8 * HOUR, **told)
    take(car, "toe_front", cast.owner, at=NOW - 6 * HOUR, last_of=job)
    steps.finish(job, at=NOW - 5.5 * HOUR, **told)
    assert readings_of(cast.garage, [car], NOW)[car.pk].lines["toe_front"].state == "stands"
    steps.reopen(job, at=NOW - 5 * HOUR, reason="Wrong arm", **told)
    steps.finish(job, at=NOW - 4 * HOUR, **told)
    assert readings_of(cast.garage, [car], NOW)[car.pk].lines["toe_front"].state == "void"


def test_struck_out_counts_no_more_and_stays_to_be_read(helper, cast, car):
    require(car, cast.owner, "camber")
    wrong, anothers = take(car, "camber", cast.helper), take(car, "caster", cast.owner)
    pages = [helper.get(url("reading_page", car, key)) for key in ("camber", "caster")]
    assert [[taken.strikes for taken in drawn.context["history"]] for drawn in pages] == [[True], [False]]
    assert ["/strike/" in drawn.content.decode() for drawn in pages] == [True, False]
    answer = helper.press(f"/readings/{anothers.pk}/strike/", {"because": "typed wrong"})
    assert answer.context["form"].errors["because"] == ["Ines took this reading: only the owner strikes out another's."]
    assert Reading.objects.standing().count() == 2
    address = f"/readings/{wrong.pk}/strike/"
    assert helper.press(address, {"because": " "}).status_code == 422
    assert helper.press(address, {"because": "x" * 201}).status_code == 422
    assert helper.press(address, {"because": "<b>wrong</b> wheel"}).status_code == 303
    again = helper.press(address, {"because": "the wrong wheel again"})
    assert again.context["form"].errors["__all__"] == ["This reading is struck out already."]
    page = text(helper, url("reading_page", car, "camber"))
    assert "Struck out by Tove" in page and "&lt;b&gt;wrong&lt;/b&gt; wheel" in page
    (reason, _limits) = verdict_of(car, NOW).reasons
    assert reason.sentence == "Not taken yet: Camber."


def test_two_days_side_by_side_with_the_change(owner, cast, car):
    take(car, "camber", cast.owner, at=NOW - 48 * HOUR, amount=-1500)
    take(car, "camber", cast.owner, at=NOW, amount=-1200)
    take(car, "caster", cast.owner, at=NOW, amount=6000)
    address = url("reading_compare", car)
    page = text(owner, f"{address}?first=2027-02-28&second=2027-03-02")
    assert "-1.5°" in page and "-1.2°" in page and "+0.3°" in page
    assert page.count("Not read until then.") == 1
    for wrong in ("", "2027-99-01", "x" * 5000, "%00"):
        assert owner.get(f"{address}?first={wrong}&second={wrong}").status_code == 200
    assert owner.get(url("reading_compare", VehicleFactory(garage=cast.garage))).status_code == 200


def test_a_trend_is_drawn_with_its_words_and_table(owner, cast, car):
    page = url("reading_page", car, "camber")
    take(car, "camber", cast.owner, at=NOW - 48 * HOUR, amount=-1500)
    assert "trend-0-title" not in text(owner, page)
    take(car, "camber", cast.owner, at=NOW, amount=-1200)
    drawn = written(text(owner, page))
    assert drawn.count("<polyline") == 4
    assert "Front left: from -1.5° to -1.2°." in drawn
    assert 'role="img" aria-labelledby="trend-0-title trend-0-says"' in drawn


def test_a_kind_of_ones_own_in_numbers_goes_void_with_what_it_follows(owner, cast, car):
    form = {"name": "Steering <wheel> play", "is_number": "1", "unit": "mm", "follows": "toe_front"}
    answer = owner.press(url("reading_kind_add", car), form)
    kind = OwnKind.objects.get()
    assert answer["Location"] == url("reading_page", car, kind.key)
    assert owner.press(url("reading_kind_add", car), form).status_code == 422
    assert owner.press(url("reading_kind_add", car), {**form, "name": "camber"}).status_code == 422
    data = {"value_value": "3,25", "instrument": "rule"}
    assert owner.press(url("reading_add", car, kind.key), data).status_code == 303
    Reading.objects.update(at=NOW - 3 * HOUR)
    page = text(owner, url("reading_page", car, kind.key))
    assert "3.25 mm" in page and "Steering &lt;wheel&gt; play" in page
    require(car, cast.owner, kind.key, at=NOW - 6 * HOUR)
    voided(car, cast.owner, "steering_arm")
    assert any("Void: " in reason.sentence for reason in verdict_of(car, NOW).reasons)
    again = Job.objects.on(car).taking_again().get()
    assert again.title == "Measure again: Steering <wheel> play"
    take(car, kind.key, cast.owner)
    assert not Job.objects.on(car).taking_again().open().exists()


def test_a_kind_of_ones_own_in_words(owner, car):
    form = {"name": "Plug colour", "is_number": "0", "unit": "mm", "follows": ""}
    owner.press(url("reading_kind_add", car), form)
    kind = OwnKind.objects.get()
    assert kind.unit == ""
    assert owner.press(url("reading_add", car, kind.key), {}).status_code == 422
    answer = owner.press(url("reading_add", car, kind.key), {"value_value": "light tan"})
    assert answer.status_code == 303
    assert "light tan" in text(owner, answer["Location"])


def test_the_last_act_of_a_job_in_hand_holds_when_it_is_finished(helper, cast, car):
    job = jobs.add(
        car, by=cast.owner, at=NOW - 3 * HOUR, title="Set front toe", work=(1, 2, 3),
        kinds=["jam_nut"], measures=["toe_front"],
    )  # fmt: skip
    steps.start(job, by=cast.helper, at=NOW - 2 * HOUR)
    page = text(helper, url("reading_add", car, "toe_front"))
    assert f'<option value="{job.pk}" selected>' in page
    past = {**TOE, "last_of": job.pk, "taken_at": "2027-03-02T16:30"}
    assert helper.press(url("reading_add", car, "toe_front"), past).status_code == 303
    steps.finish(job, by=cast.helper, at=NOW)
    assert "void" not in text(helper, url("reading_page", car, "toe_front")).split("Last")[0]


def test_pages_take_the_same_queries_for_one_reading_and_for_many(owner, cast, car):
    take(car, "camber", cast.owner, at=NOW - HOUR)
    addresses = [
        url("reading_list", car), url("reading_page", car, "camber"), url("reading_compare", car),
    ]  # fmt: skip
    few = [queries(owner, address) for address in addresses]
    for hours in range(2, 9):
        take(car, "camber", cast.helper, at=NOW - hours * HOUR)
        take(car, "caster", cast.owner, at=NOW - hours * HOUR)
    assert [queries(owner, address) for address in addresses] == few


@pytest.mark.parametrize(("kind", "offered"), [("wheel_torque", True), ("brake_bleed", False), ("earths", False)])
def test_another_unit_is_offered_where_there_is_one(owner, car, kind, offered):
    page = text(owner, url("reading_add", car, kind))
    assert ("Another unit may stand beside the figure" in page) == offered


def test_a_reading_is_the_last_act_of_a_job_on_its_own_car_by_somebody_of_its_garage(cast, car):
    with pytest.raises(Refused, match="That job is on another car") as refused:
        take(car, "wheel_torque", cast.owner, last_of=JobFactory(vehicle=VehicleFactory(garage=cast.garage)))
    assert refused.value.field == "last_of"
    with pytest.raises(Refused, match="must be in the same garage") as refused:
        take(car, "wheel_torque", cast.owner, who=cast.stranger)
    assert refused.value.field == "who"
    assert not Reading.objects.exists()
    take(car, "wheel_torque", cast.owner, last_of=JobFactory(vehicle=car), who=cast.helper)
