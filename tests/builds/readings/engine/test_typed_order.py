"""Jobs in somebody's own words find their place among each other. Common practice, no source."""

import pytest

from builds.readings.engine.car_job import CarJob
from builds.readings.engine.order_of_work import order_of_work
from builds.readings.engine.what_leads import Order
from builds.recipes.engine.parse import load_shipped
from tests.builds.readings.typed import typed
from tests.property.test_order_of_work import on_car

RECIPES = {recipe.key: recipe for recipe in load_shipped()}


def comes_before(titles, keys=()):
    """By title, over the links of these recipes and all that the order of work draws."""
    jobs, links = on_car([RECIPES[key] for key in keys])
    names = {
        job.title: number * 100 + at for number, key in enumerate(keys) for at, job in enumerate(RECIPES[key].jobs)
    }
    for title in titles:
        names[title] = 10_000 + len(names)
        jobs[names[title]] = typed(title)
    order = Order([*links, *order_of_work(jobs, links)])
    return lambda first, then: order.leads(names[first], names[then])


@pytest.mark.parametrize("way", [
    ("Harness out", "Weld the sill", "Paint the sill", "Fit the harness"),
    ("Seat belts off", "Cut the tunnel out", "Spray the floor", "Belts back in"),
    ("Seat out", "Weld the cage", "Paint inside", "Seat in", "Fit harness"),
    ("Wiring loom out", "Weld the bulkhead", "Paint the bulkhead", "Refit the loom"),
    ("Disconnect the battery", "Weld the exhaust hanger", "New battery"),
    ("Harness out", "New harness"),
    ("Weld the sill", "Paint the sill", "New windscreen"),
    ("Wheels off", "New tyres", "Wheels back on", "Set ride height", "Torque the wheels"),
    ("Wheels off", "Front pads", "Wheels on", "Wheel nuts torqued"),
    ("Wheels off", "Swap rear dampers", "Refit wheels", "Corner weights"),
    ("New tyres", "New wheels", "Torque wheels"),
    ("Drop the gearbox, new clutch", "Wheels on", "Set ride height"),
    ("Swap the diff oil", "Weigh the car", "Track it up", "Spanner check", "Test drive", "Check nuts after first run"),
    ("New loom", "Corner weights"), ("Alternator out", "Corner weights"), ("Trailer lights dead", "Test drive"),
    ("Weld a lamp bracket on", "Track it up"),
    ("Fit the rad", "Corner weights", "Torque wheels", "Nut and bolt check", "Test drive"),
])  # fmt: skip
def test_typed_jobs_are_done_in_this_order_however_they_were_written_down(way):
    for titles in (way, way[::-1]):
        before = comes_before(titles)
        for at, first in enumerate(way):
            for then in way[at + 1 :]:
                assert before(first, then), f"“{first}” before “{then}”"


@pytest.mark.parametrize(("first", "then"), [
    ("Belts out of date", "Weld the sill"), ("Paint the calipers", "New battery"), ("Loom tape", "Weld the sill"),
    ("Clean the boot", "Weigh the car"), ("Trailer lights: one side dead", "Track it up"),
    ("Trace the relay fault", "Track it up"), ("Rewire the dash", "Weigh the car"),
    ("Fit the rad", "Check nuts after first run"),
])  # fmt: skip
def test_words_that_take_nothing_out_have_nothing_wait(first, then):
    assert not comes_before([first, then])(first, then)


def test_a_hose_that_rubs_on_a_rim_is_seen_to_before_the_brakes_are_bled_again():
    bleed = CarJob((), ("brake_bleed",), ("brakes",), again=True)
    jobs = {1: typed("Brake hose rubs on the rim, front left"), 2: bleed}
    assert order_of_work(jobs, []) == {(1, 2): "would void brake bleed and leak check"}


def test_tyres_are_fitted_once_wheels_are_off_anyhow_and_not_after_every_strip():
    keys = ("damper-spring-change", "brake-overhaul", "pre-event-spanner-check")
    before = comes_before(["New tyres", "Torque the wheel nuts"], keys)
    assert before("Wheels off and dampers out", "New tyres")
    assert before("New tyres", "Wheels on and car down") and before("New tyres", "Torque the wheel nuts")
    assert not before("Wheels off, strip and measure the brakes", "New tyres")
    apart = comes_before(["Wheels off, front", "New rear tyres"])
    assert not apart("Wheels off, front", "New rear tyres")


def test_what_a_recipe_clears_away_for_its_sparks_is_away_for_all_others_too():
    before = comes_before(["Weld the sill"], ["panel-repair-paint"])
    assert before("Take off trim, fuel and brake lines, and whatever burns", "Weld the sill")
    assert before("Weld the sill", "Refit fuel and brake lines, trim and wiring")
    seat = comes_before(["Fit belts", "Harness out"], ["seat-mounts-harness"])
    assert seat("Set the seat and torque it down", "Fit belts")
    assert seat("Harness out", "Fit the harness with the driver aboard")


def test_what_somebody_types_beside_a_recipe_waits_for_what_makes_safe_reads_and_carries():
    crash = comes_before(["Crash check", "Weld in the cage"], ["crash-check"])
    assert crash("Make safe: fuel, battery, airbags, tag", "Crash check")
    assert crash("Measure the shell, cage and pickup points", "Weld in the cage")
    assert comes_before(["Seat and belts in"], ["seat-mounts-harness"])(
        "Fit the mounts with counter-plates", "Seat and belts in"
    )
