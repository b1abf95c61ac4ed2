"""Whatever people do to a car, it is fit only where the written rules of the trade let it be."""

from datetime import timedelta

import pytest
from django.db import transaction
from hypothesis import example, given
from hypothesis import strategies as st
from hypothesis.stateful import run_state_machine_as_test

from tests.property.car_ahead import BY_A_WRONG_CLOCK
from tests.property.car_cured import COATS, SAID, WAITS
from tests.property.car_driven import DRIVES
from tests.property.car_kept import DAYS, LIMITS, RUNS
from tests.property.car_read import AS_RACED, ENOUGH, LITTLE, LOADS
from tests.property.car_told_twice import FORGOTTEN, KINDS, WHY, Car
from tests.property.car_works import BONDED, OPENED, PAINTED, PAINTED_JOINT, WHEEL_OFF
from tests.property.tries import tries

pytestmark = pytest.mark.once
PLACE, PERSON = st.integers(0, 2), st.integers(0, 2)
ACTS = st.one_of(
    st.tuples(st.just("write_down"), st.sampled_from(["brakes", "cooling", "body"]), KINDS, st.booleans()),
    st.tuples(st.just("start"), PLACE, PERSON),
    st.tuples(st.just("put_down"), PLACE),
    st.tuples(st.just("finish"), PLACE, PERSON, st.none() | KINDS, st.sampled_from(["", WHY]), st.booleans()),
    st.tuples(st.just("set_limit"), st.sampled_from(LIMITS)),
    st.tuples(st.just("change_belts"), st.sampled_from(DAYS)),
    st.tuples(st.just("fill_oil"), st.sampled_from(RUNS)),
    st.tuples(st.just("measure"), st.sampled_from([ENOUGH, LITTLE])),
    st.tuples(st.just("look"), PLACE, PERSON, PERSON),
    st.tuples(st.just("find"), PLACE, PERSON, st.booleans()),
    st.tuples(st.just("measure_last"), PLACE),
    st.tuples(st.just("must_have"), st.sampled_from(AS_RACED)),
    st.tuples(st.just("weigh"), st.sampled_from(LOADS)),
    st.tuples(st.just("put"), st.sampled_from(["stands", "driveable"])),
    st.tuples(st.just("strip"), PLACE),
    st.tuples(st.just("put_on"), st.sampled_from(COATS), st.sampled_from(SAID)),
    st.tuples(st.just("leave_alone"), st.sampled_from(WAITS)),
    st.tuples(st.just("by_a_wrong_clock"), st.sampled_from(BY_A_WRONG_CLOCK), PLACE, PERSON),
    st.tuples(st.just("drive"), PERSON, st.sampled_from(DRIVES)),
    st.tuples(st.just("event"), st.sampled_from(["ran", "ran on", "did not run", "nobody said"])),
)


HOUR, TWENTY = timedelta(hours=1), timedelta(minutes=20)
WHEELS_OFF = ("write_down", "brakes", [WHEEL_OFF], False)
BRAKES_OPENED = ("write_down", "brakes", [OPENED], False)
START, FINISH = ("start", 0, 1), ("finish", 0, 1, None, "")
READ_IN_IT = [WHEELS_OFF, START, ("measure_last", 0)]


def story(*acts, but, three=False):
    return example(three=three, acts=list(acts), but=but)


def by_a_wrong_clock(act):
    return ("by_a_wrong_clock", act, 0, 0)


@story(WHEELS_OFF, but="torque", three=True)
@story(WHEELS_OFF, but="looks", three=True)
@story(WHEELS_OFF, but="tick")
@story(BRAKES_OPENED, but="bleed", three=True)
@story(("event", "nobody said"), but="torque")
@story(("event", "ran"), but="measure")
@story(("event", "ran on"), but="torque")
@story(("drive", 1, ""), but="measure")
@story(("set_limit", 90_000), ("measure", LITTLE), but="measure")
@story(("set_limit", None), but="limit")
@story(("change_belts", -1), but="belts")
@story(("fill_oil", 1), ("event", "ran"), but="oil")
@story(("write_down", "brakes", [], False), ("finish", 0, 1, [], WHY), but="measure", three=True)
@story(*READ_IN_IT, ("leave_alone", TWENTY), FINISH, but="measure")
@story(*READ_IN_IT, ("leave_alone", HOUR), FINISH, but="measure")
@story(*READ_IN_IT, ("leave_alone", HOUR), (*FINISH, True), but="measure")
@story(WHEELS_OFF, START, ("put_down", 0), ("measure_last", 0), START, FINISH, but="measure")
@story(("drive", 1, "read last"), but="measure")
@story(("drive", 1, "read early"), but="measure")
@story(("drive", 1, "read and driven on"), but="measure")
@story(by_a_wrong_clock("measure"), but="measure")
@story(by_a_wrong_clock("weigh"), but="weigh")
@story(by_a_wrong_clock("torque_nuts"), but="torque")
@story(("torque_nuts", 1), by_a_wrong_clock("look_at_nuts"), but="torque")
@story(WHEELS_OFF, FINISH, by_a_wrong_clock("look"), but="looks")
@story(BRAKES_OPENED, FINISH, ("measure", ENOUGH), by_a_wrong_clock("look_at_bleed"), but="bleed")
@story(BRAKES_OPENED, FINISH, ("measure", ENOUGH), *map(by_a_wrong_clock, ["look", "look_at_bleed"]), but="")
@story(by_a_wrong_clock("tick"), but="tick")
@story(by_a_wrong_clock("fill_oil"), but="oil")
@story(*map(by_a_wrong_clock, ["measure", "weigh", "torque_nuts", "tick", "fill_oil"]), but="")
@story(("put_on", ("glass", BONDED), None), but="cure")
@story(("put_on", ("body", PAINTED_JOINT), timedelta(days=5)), but="")
@story(("put_on", ("brakes", PAINTED), timedelta(hours=2)), but="cure")
@story(("put_on", ("body", PAINTED), None), but="cure")
@story(("must_have", "toe_front"), ("weigh", {"driver": "empty"}), but="weigh")
@story(("must_have", "bump_steer"), ("weigh", {"fuel_ml": 0}), but="weigh")
@story(("weigh", {"bars": "hooked"}), but="weigh")
@story(("put", "stands"), ("weigh", {}), but="weigh")
@story(WHEELS_OFF, ("strip", 0), START, ("weigh", {}), but="weigh")
@given(three=st.booleans(), acts=st.lists(ACTS, min_size=1, max_size=4), but=st.sampled_from(FORGOTTEN))
@tries(12)
def try_one_thing_forgotten(fit, three, acts, but):
    with transaction.atomic():
        car = fit[three].again()
        try:
            for name, *told in acts:
                getattr(car, name)(*told)
                car.never_fit_where_a_rule_stops_it()
            car.put_right(but)
            car.never_fit_where_a_rule_stops_it()
            car.fit_where_no_rule_stops_it()
        finally:
            transaction.set_rollback(True)


@pytest.mark.django_db
def test_one_thing_forgotten_after_work_on_a_car_that_was_fit():
    with Car() as of_two, Car() as of_three:
        of_two.made_fit(three=False)
        of_three.made_fit(three=True)
        try_one_thing_forgotten([of_two, of_three])


@pytest.mark.django_db
def test_never_fit_where_the_written_rules_say_otherwise():
    run_state_machine_as_test(Car, settings=tries(4, stateful_step_count=16))


@pytest.mark.django_db
def test_the_two_tellings_of_the_rules_agree_on_a_car_that_is_fit():
    with Car() as car:
        car.found(three=True)
        car.write_down(system="brakes", kinds=[OPENED, WHEEL_OFF], wanted=False)
        car.start(number=0, who=1)
        car.find(number=0, who=1, hurts=False)
        car.finish(number=0, who=1, kinds=None, because="")
        car.finish(number=1, who=2, kinds=[OPENED], because="")
        car.look(number=0, who=0, tells=0)
        assert car.stops() and car.verdict().state == "not_fit"
        car.look(number=1, who=1, tells=1)
        car.event(said="nobody said")
        car.torque_nuts(who=1)
        car.look_at_nuts(who=0)
        car.measure(ENOUGH)
        assert car.stops() and car.verdict().state == "not_fit"
        car.look_at_bleed(who=1)
        car.weigh({})
        car.tick()
        verdict = car.verdict()
        assert (verdict.state, car.stops()) == ("fit", []), [reason.sentence for reason in verdict.reasons]
