"""The order of work across recipes: common practice, no source."""

from dataclasses import replace

from builds.readings.engine.order_of_work import CarJob, Order, order_of_work
from builds.readings.engine.wheels_said import on_wheels_said

WORK = CarJob(kinds=("spring_change",), systems=("suspension",))
HEIGHT, WEIGHTS = CarJob(measures=("ride_height",)), CarJob(measures=("ride_height", "corner_weights"))
ALIGN = CarJob(kinds=("jam_nut",), measures=("camber", "caster", "toe_rear", "toe_front"))
TORQUE, LOCK = CarJob(measures=("wheel_torque",)), CarJob(measures=("lock_clearance", "hose_check"))
DRIVE = CarJob(kinds=("driven",), measures=("pad_bedding",))


def comes_before(jobs, links=(), strips=()):
    order = Order([*links, *order_of_work(jobs, links, strips)])
    return lambda before, after: order.leads(before, after)


def test_work_comes_before_what_measures_what_it_disturbs():
    assert tuple(order_of_work({1: HEIGHT, 2: WORK})) == ((2, 1),)


def test_the_chain_runs_from_pressures_to_bedding_in_whatever_order_it_was_written_down():
    steps = (DRIVE, LOCK, TORQUE, ALIGN, WEIGHTS, HEIGHT, CarJob(measures=("tyre_pressures",)))
    jobs = dict(enumerate(steps))
    assert set(order_of_work(jobs)) == {(6, 5), (5, 4), (4, 3), (3, 2), (2, 1), (1, 0)}


def test_two_that_take_the_same_are_left_as_they_are():
    assert tuple(order_of_work({1: WEIGHTS, 2: WEIGHTS})) == ()


def test_what_a_later_step_disturbs_and_does_not_take_again_is_measured_after_it():
    camber = CarJob(kinds=("camber_front",), measures=("camber",))
    assert comes_before({1: HEIGHT, 2: camber})(2, 1)
    again = CarJob(kinds=("camber_front",), measures=("ride_height", "camber"))
    assert comes_before({1: HEIGHT, 2: again})(1, 2)
    each_other = {1: CarJob(kinds=("spring_change",), measures=("ride_height",)), 2: camber}
    assert comes_before(each_other)(1, 2)


def test_bump_steer_comes_before_the_weights_and_toe_in_front_after_toe_at_the_rear():
    jobs = {1: CarJob(measures=("toe_front",)), 2: CarJob(measures=("toe_rear",)), 3: WEIGHTS}
    assert comes_before(jobs | {4: CarJob(measures=("bump_steer",))})(4, 3)
    assert comes_before(jobs)(2, 1)


def test_a_before_reading_stays_before():
    before = comes_before({1: WORK, 2: HEIGHT, 3: HEIGHT, 4: WORK}, links=[(2, 1)])
    assert before(2, 1) and before(2, 4) and before(1, 3) and before(4, 3) and not before(1, 2)


def test_corner_work_of_any_kind_is_over_before_the_wheels_are_torqued():
    hubs = CarJob(kinds=("hub_opened",), systems=("brakes",))
    before = comes_before({1: LOCK, 2: TORQUE, 3: hubs})
    assert before(3, 2) and before(3, 1)
    assert not comes_before({1: TORQUE, 2: CarJob(kinds=("wiring",), systems=("electrics",))})(2, 1)


def test_a_link_by_hand_stands_and_no_circle_is_closed():
    jobs = {1: TORQUE, 2: CarJob(measures=("tyre_pressures",))}
    assert comes_before(jobs)(2, 1)
    before = comes_before(jobs, links=[(1, 2)])
    assert before(1, 2) and not before(2, 1)


def test_a_stripped_car_is_measured_before_or_after():
    strip, refit = CarJob(kinds=("joint_opened",)), CarJob(kinds=("joint_opened",))
    jobs = {1: strip, 2: refit, 3: WEIGHTS, 4: CarJob(measures=("toe_front",)), 5: LOCK, 6: strip}
    before = comes_before(jobs, links=[(1, 2), (4, 6)], strips=[(1, 2)])
    assert before(2, 3) and before(2, 5) and before(4, 1)
    del jobs[1]  # begun
    assert comes_before(jobs, strips=[(1, 2)])(2, 3)


def test_what_is_checked_within_the_strip_stays_within():
    jobs = {1: WORK, 2: TORQUE, 3: CarJob(measures=("wheel_torque",)), 4: HEIGHT}
    before = comes_before(jobs, links=[(1, 2), (2, 3)], strips=[(1, 3)])
    assert before(2, 3) and before(3, 4)


def test_fuel_is_drained_before_any_line_is_opened_and_before_sparks():
    drain = CarJob(kinds=("fuel_drained", "fuel_line"), systems=("fuel",))
    off, weld = CarJob(kinds=("fuel_line", "wiring"), systems=("body",)), CarJob(kinds=("hot_work",), systems=("body",))
    before = comes_before({1: off, 2: weld, 3: drain})
    assert before(3, 1)
    assert before(3, 2)


def test_what_is_looked_at_at_full_lock_waits_for_the_wheels():
    flaps, off = CarJob(systems=("body",), seen_rolling=True), CarJob(kinds=("wheel_off", "hydraulics_opened"))
    on = CarJob(kinds=("wheels_on",))
    assert comes_before({1: flaps, 2: off, 3: on})(2, 1) and comes_before({1: flaps, 2: off, 3: on})(3, 1)
    assert not order_of_work({1: CarJob(systems=("body",)), 2: off})
    arches = CarJob(kinds=("wheel_off",), seen_rolling=True)
    assert not comes_before({1: arches, 2: off})(2, 1)
    assert on_wheels_said("Flaps clear of the tyres at full lock and in bump") and not on_wheels_said("Bolts torqued")


def test_a_turret_rusted_through_is_welded_before_the_damper_goes_on_it():
    """Whether somebody strips that corner first or not; what is apart already, or at another corner, waits for none."""
    turret = CarJob(kinds=("chassis_weld",), systems=("suspension",), faulty=True, guessed=True, by_hand=True)
    shocks = CarJob(kinds=("spring_change", "joint_opened"), systems=("suspension",), faulty=True, by_hand=True)
    strip = CarJob(kinds=("wheel_off", "joint_opened"), systems=("suspension",))
    links = order_of_work({1: turret, 2: shocks, 3: strip})
    assert links[1, 2] == "the metal is sound before anything is bolted to it" and (1, 3) not in links
    left, right = frozenset({"left"}), frozenset({"right"})
    assert not order_of_work({1: replace(turret, corner=left), 2: replace(shocks, corner=right)})


def test_what_is_looked_at_on_the_stands_has_no_wheel_torqued_before_the_wheels_are_on():
    """Nor where the wheels come off once more for it, and are torqued again after it."""
    hoses, on = CarJob(measures=("hose_check",)), CarJob(kinds=("wheels_on",))
    before = comes_before({1: hoses, 2: on, 3: TORQUE, 4: HEIGHT}, links=[(1, 2)])
    assert before(2, 3) and before(4, 3) and not before(3, 1)
    look = CarJob(kinds=("wheel_off",), measures=("hose_check", "joint_pins"))
    again = CarJob(kinds=("wheel_off",), measures=("tyre_pressures", "wheel_torque"))
    assert comes_before({1: look, 2: again, 3: TORQUE}, links=[(1, 2)])(1, 3)
