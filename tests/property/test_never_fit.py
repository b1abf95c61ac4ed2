"""Whatever people do to a car, it is fit only where the written rules of the trade let it be."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from hypothesis.stateful import run_state_machine_as_test

from builds.verdict.facts.verdict import verdict_of
from tests.property.car_kept import DAYS, ENOUGH, LIMITS, LITTLE, RUNS
from tests.property.car_told_twice import FORGOTTEN, KINDS, OPENED, WHEEL_OFF, WHY, Car
from tests.property.tries import tries

pytestmark = pytest.mark.once
PLACE, PERSON = st.integers(0, 2), st.integers(0, 2)
ACTS = st.one_of(
    st.tuples(st.just("write_down"), st.sampled_from(["brakes", "cooling", "body"]), KINDS, st.booleans()),
    st.tuples(st.just("start"), PLACE, PERSON),
    st.tuples(st.just("put_down"), PLACE),
    st.tuples(st.just("finish"), PLACE, PERSON, st.none() | KINDS, st.sampled_from(["", WHY])),
    st.tuples(st.just("set_limit"), st.sampled_from(LIMITS)),
    st.tuples(st.just("change_belts"), st.sampled_from(DAYS)),
    st.tuples(st.just("fill_oil"), st.sampled_from(RUNS)),
    st.tuples(st.just("measure"), st.sampled_from([ENOUGH, LITTLE])),
    st.tuples(st.just("look"), PLACE, PERSON, PERSON),
    st.tuples(st.just("find"), PLACE, PERSON, st.booleans()),
    st.tuples(st.just("drive"), PERSON),
    st.tuples(st.just("event"), st.sampled_from(["ran", "ran on", "did not run", "nobody said"])),
)


WHEELS_OFF = ("write_down", "brakes", [WHEEL_OFF], False)


@example(three=True, acts=[WHEELS_OFF], but="torque")
@example(three=True, acts=[WHEELS_OFF], but="looks")
@example(three=False, acts=[WHEELS_OFF], but="tick")
@example(three=True, acts=[("write_down", "brakes", [OPENED], False)], but="bleed")
@example(three=False, acts=[("event", "nobody said")], but="torque")
@example(three=False, acts=[("event", "ran")], but="measure")
@example(three=False, acts=[("event", "ran on")], but="torque")
@example(three=False, acts=[("drive", 1)], but="measure")
@example(three=False, acts=[("set_limit", 90_000), ("measure", LITTLE)], but="measure")
@example(three=False, acts=[("set_limit", None)], but="limit")
@example(three=False, acts=[("change_belts", -1)], but="belts")
@example(three=False, acts=[("fill_oil", 1), ("event", "ran")], but="oil")
@example(three=True, acts=[("write_down", "brakes", [], False), ("finish", 0, 1, [], WHY)], but="measure")
@given(three=st.booleans(), acts=st.lists(ACTS, min_size=1, max_size=4), but=st.sampled_from(FORGOTTEN))
@tries(30)
def try_one_thing_forgotten(three, acts, but):
    car = Car()
    try:
        car.found(three)
        car.put_right("")
        for name, *told in acts:
            getattr(car, name)(*told)
            car.never_fit_where_a_rule_stops_it()
        car.put_right(but)
        car.never_fit_where_a_rule_stops_it()
    finally:
        car.teardown()


@pytest.mark.django_db
def test_one_thing_forgotten_after_work_on_a_car_that_was_fit():
    try_one_thing_forgotten()


@pytest.mark.django_db
def test_never_fit_where_the_written_rules_say_otherwise():
    run_state_machine_as_test(Car, settings=tries(8, stateful_step_count=16))


@pytest.mark.django_db
def test_the_two_tellings_of_the_rules_agree_on_a_car_that_is_fit():
    car = Car()
    try:
        car.found(three=True)
        car.write_down(system="brakes", kinds=[OPENED, WHEEL_OFF], wanted=False)
        car.start(number=0, who=1)
        car.find(number=0, who=1, hurts=False)
        car.finish(number=0, who=1, kinds=None, because="")
        car.finish(number=1, who=2, kinds=[OPENED], because="")
        car.look(number=0, who=0, tells=0)
        assert car.stops() and verdict_of(car.car, car.at).state == "not_fit"
        car.look(number=1, who=1, tells=1)
        car.event(said="nobody said")
        car.torque_nuts(who=1)
        car.look_at_nuts(who=0)
        car.measure(ENOUGH)
        assert car.stops() and verdict_of(car.car, car.at).state == "not_fit"
        car.look_at_bleed(who=1)
        car.tick()
        verdict = verdict_of(car.car, car.at)
        assert (verdict.state, car.stops()) == ("fit", []), [reason.sentence for reason in verdict.reasons]
    finally:
        car.teardown()
