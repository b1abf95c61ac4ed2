"""Targets and what a car must have: in, out, not judged; what the verdict and the sheet say."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput
from builds.readings.facts.kinds import kind_of
from builds.readings.models.reading import OwnKind
from builds.readings.pages.setup import setup_sheet
from builds.readings.pages.words import STATE_WORDS
from builds.verdict.facts.verdict import verdict_of, verdicts
from builds.verdict.pages import reason_url
from tests.builds.readings.reading_kit import HOUR, require, take, text, url, voided
from tests.factories import NOW, VehicleFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_in_and_out_and_not_judged(owner, cast, car):
    take(car, "camber", cast.owner, amount=-1500)
    page = url("reading_page", car, "camber")
    assert "not judged" in text(owner, page)
    data = {"first_fl": "-1,5", "second_fl": "0,2"}
    assert owner.press(url("target_edit", car, "camber"), data).status_code == 303
    assert "-1,5" in text(owner, url("target_edit", car, "camber"))
    assert "Front left -1.5° (in)" in text(owner, page)
    owner.press(url("target_edit", car, "camber"), {"first_fl": "-1", "second_fl": "0.2"})
    assert "Front left -1.5°, wanted -1° ± 0.2° (top out +)." in text(owner, page)
    owner.press(url("target_edit", car, "camber"), {})
    assert "not judged" in text(owner, page)


def test_half_a_target_is_refused(owner, car):
    answer = owner.press(url("target_edit", car, "camber"), {"first_fl": "-1", "second_rr": "-2"})
    assert answer.status_code == 422
    assert answer.context["form"].errors == {
        "second_fl": ["Write both a figure and how far off it may be, or neither."],
        "first_rr": ["Write both a figure and how far off it may be, or neither."],
    }
    assert owner.get(url("target_edit", car, "brake_bleed")).status_code == 404


def test_a_tolerance_beyond_all_measure_is_refused(owner, cast, car):
    kind = OwnKind.objects.create(garage=cast.garage, name="Preload", unit="turns")
    data = {"first_value": "1", "second_value": "1500000000"}
    answer = owner.press(url("target_edit", car, kind.key), data)
    assert answer.status_code == 422 and "1500000000" in answer.content.decode()


def test_the_verdict_names_each_required_one_that_does_not_stand(cast, car):
    assert "readings" in verdict_of(car, NOW).sentence
    require(car, cast.owner, "camber", "toe_front", "wheel_torque", "fuel_leak", "brake_bleed")
    take(car, "toe_front", cast.owner, at=NOW - 2 * HOUR)
    voided(car, cast.owner, "jam_nut")
    take(car, "camber", cast.owner, amount=-900)
    readings.set_targets(car, kind_of(car.garage, "camber"), {"fl": TargetInput("off", -1500, 200, "-1.5", "0.2", "°")})
    take(car, "wheel_torque", cast.owner, instrument="")
    kind = kind_of(car.garage, "fuel_leak")
    readings.take(car, kind, {"passed": readings.Typed(0, "failed")}, by=cast.owner, at=NOW)
    reasons = [each for each in verdict_of(car, NOW).reasons if each.kind == "reading"]
    assert [each.sentence for each in reasons] == [
        "Not taken yet: Brake bleed and leak check.",
        "Out of its limits: Camber. Front left -0.9°, wanted -1.5° ± 0.2° (top out +).",
        "Void: Front toe. “Replace the steering arm” was finished Tue 2 Mar 16:00, and it has not been taken since.",
        "Counts as a note only: Wheel torque. Not written down: instrument.",
        "Failed: Fuel leak test. The check failed.",
    ]
    assert {reason_url(each) for each in reasons} == {url("reading_list", car)}
    (limits,) = [each for each in verdict_of(car, NOW).reasons if each.kind == "limit"]
    assert limits.sentence == "No limit says whether it is right: camber, front toe, wheel torque."
    assert reason_url(limits) == url("target_offers", car)
    take(car, "toe_front", cast.owner)
    reasons = verdict_of(car, NOW).reasons
    assert not any("toe" in each.sentence for each in reasons if each.kind == "reading")


def test_none_required_is_a_choice_and_no_choice_is_not_known(owner, cast, car):
    assert owner.press(url("required_edit", car), {}).status_code == 422
    both = {"none": "on", "kinds": ["camber"]}
    assert owner.press(url("required_edit", car), both).status_code == 422
    assert owner.press(url("required_edit", car), {"kinds": ["nope"]}).status_code == 422
    assert "readings" in verdict_of(car, NOW).sentence
    assert owner.press(url("required_edit", car), {"none": "on"}).status_code == 303
    assert "readings" not in verdict_of(car, NOW).sentence


def test_the_usual_ones_on_one_tap_by_the_owner_alone(owner, helper, car):
    assert helper.press(url("required_edit", car), {"sensible": "1"}).status_code == 403
    assert owner.press(url("required_edit", car), {"sensible": "1"}).status_code == 303
    sentences = [each.sentence for each in verdict_of(car, NOW).reasons]
    assert "Not taken yet: Front toe." in sentences and len(sentences) == 17
    assert sentences[-1].startswith("No limit says whether it is right: wheel bearing play, tyre pressures,")


def test_the_setup_sheet_has_values_targets_and_conditions(cast, car):
    require(car, cast.owner, "camber", "toe_front")
    take(car, "camber", cast.owner, amount=-1500, note="after the <b>kerb</b>")
    kind = kind_of(car.garage, "camber")
    readings.set_targets(car, kind, {"fl": TargetInput("off", -1500, 200, "-1.5", "0.2", "°")})
    camber, toe = setup_sheet(car, NOW).kinds
    first = camber.values[0]
    assert (first.label, first.value, first.target, first.judged) == (
        "Front left", "-1.5°", "-1.5° ± 0.2°", "in",
    )  # fmt: skip
    assert ("Floor", "levelled") in camber.conditions and camber.taken.startswith("Tue 2 Mar 2027")
    assert (toe.state, toe.taken, toe.values[0].value) == ("missing", "", "")


def test_the_verdicts_of_one_car_and_of_twelve_take_the_same_queries(cast, now, django_assert_num_queries):
    def one_more():
        car = VehicleFactory(garage=cast.garage)
        require(car, cast.owner, "camber", "toe_front")
        take(car, "camber", cast.owner)

    one_more()
    with CaptureQueriesContext(connection) as few:
        verdicts(cast.garage, NOW)
    for _ in range(11):
        one_more()
    with django_assert_num_queries(len(few)):
        assert len(verdicts(cast.garage, NOW)) == 12


def test_page_and_sheet_call_a_note_the_same(owner, cast, car):
    take(car, "wheel_torque", cast.owner, instrument="")
    (kind,) = setup_sheet(car, NOW).kinds
    assert STATE_WORDS[kind.state] == "a note only"
    for page in (url("reading_list", car), url("reading_page", car, "wheel_torque")):
        assert "a note only" in text(owner, page) and kind.words in text(owner, page)
