"""Which cautions a job carries, and that the trade's list of them is whole."""

import pytest

from builds.recipes.engine.parse import load_shipped
from builds.recipes.engine.recipe import STATIONS
from builds.steps.engine.cautions import cautions_for, load_cautions, standing_caution
from garage.engine.systems import SAFETY_SYSTEMS

WORST_FIRST = [
    "under-car",
    "structural-weld",
    "hot-work",
    "phosgene",
    "coating-fumes",
    "eyes",
    "exhaust-gas",
    "fuel",
    "pretensioners",
    "springs",
    "lifting",
    "brakes",
    "over-centre",
    "harness-bolts",
    "isocyanate-paint",
    "battery",
    "hot-coolant",
    "bonded-glass",
]


HOT = "hot-work phosgene coating-fumes eyes"


def keys(systems: str = "", kinds: str = "", stations: str = "") -> list[str]:
    return [caution.key for caution in cautions_for(systems.split(), kinds.split(), stations.split())]


@pytest.mark.parametrize(
    ("systems", "kinds", "stations", "expected"),
    [
        ("", "", "bay", "under-car"),
        ("", "", "floor", "under-car"),
        ("steering", "part_weld", "welder", f"under-car structural-weld {HOT} over-centre"),
        ("cage", "chassis_weld", "", f"under-car structural-weld {HOT}"),
        ("body", "hot_work", "", HOT),
        ("body", "", "welder", f"structural-weld {HOT}"),
        ("cage", "", "", "structural-weld"),
        ("wheels", "", "", "under-car"),
        ("brakes", "", "", "under-car brakes"),
        ("fuel", "", "", "fuel"),
        ("electrics", "", "", "battery"),
        ("restraint", "", "", "pretensioners harness-bolts"),
        ("", "spring_change", "", "under-car springs"),
        ("paint", "", "", "isocyanate-paint"),
        ("", "", "paint", "isocyanate-paint"),
        ("glass", "", "", "bonded-glass"),
        ("seat", "", "", "harness-bolts"),
        ("steering", "", "", "under-car over-centre"),
        ("steering", "steering_column", "", "under-car pretensioners over-centre"),
        ("", "rack_spacer", "", "under-car over-centre"),
        ("", "rack_moved", "", "under-car over-centre"),
        ("", "steering_arm", "", "under-car over-centre"),
        ("", "jam_nut", "", "under-car"),
        ("", "engine_run", "", "exhaust-gas"),
        ("engine", "engine_run", "driveway", "exhaust-gas"),
        ("", "driven", "", "exhaust-gas"),
        ("engine", "engine_work", "", ""),
        ("", "seat_work", "", "eyes"),
        ("", "clutch_line", "", "under-car brakes"),
        ("", "brake_vacuum", "", "brakes"),
        ("cooling", "", "", "hot-coolant"),
        ("", "mass_unit_moved", "", "under-car lifting"),
        ("body", "", "", ""),
        ("", "", "", ""),
    ],
)
def test_what_a_job_touches_brings_up_its_cautions(systems: str, kinds: str, stations: str, expected: str) -> None:
    assert keys(systems, kinds, stations) == expected.split()


def test_cautions_stand_worst_first_however_they_are_asked_for() -> None:
    assert [caution.key for caution in load_cautions()] == WORST_FIRST
    assert keys("cooling glass suspension fuel", "", "paint bay") == keys(
        "fuel suspension glass cooling", "", "bay paint"
    )
    assert keys("cooling glass fuel") == ["fuel", "hot-coolant", "bonded-glass"]


def test_a_caution_is_said_once_though_several_things_bring_it_up() -> None:
    shown = keys("brakes suspension", "wheel_off hydraulics_opened", "bay floor")
    assert shown.count("under-car") == 1


def test_cautions_are_short_and_differ() -> None:
    texts = [caution.text for caution in load_cautions()]
    assert len(set(texts)) == len(texts)
    assert all(30 < len(text) <= 160 and text.endswith(".") for text in texts)


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("under-car", ["jack", "scales", "solid stands"]),
        ("structural-weld", ["competent", "crack-test", "rules forbid"]),
        ("hot-work", ["battery", "control units", "fire watch"]),
        ("phosgene", ["chlorinated", "brake cleaner", "wet", "read the can"]),
        ("coating-fumes", ["zinc", "cadmium", "bare steel", "makers"]),
        ("eyes", ["grinding", "goggles", "face shield"]),
        ("exhaust-gas", ["outdoors", "lead the gas out", "headache"]),
        ("pretensioners", ["explosive", "licensed"]),
        ("isocyanate-paint", ["air-fed"]),
        ("harness-bolts", ["never swapped", "out-of-date"]),
        ("over-centre", ["by hand", "stops must act first"]),
        ("hot-coolant", ["cold"]),
        ("bonded-glass", ["adhesive's maker", "does not move"]),
    ],
)
def test_each_caution_says_the_thing_that_matters(key: str, words: list[str]) -> None:
    (text,) = [caution.text.lower() for caution in load_cautions() if caution.key == key]
    assert all(word in text for word in words)


def test_the_standing_line_defers_to_those_who_come_first() -> None:
    said = standing_caution()
    for word in ("estimate", "maker's figure", "organiser's rules", "local law", "licensed"):
        assert word in said


def test_cautions_name_only_stations_that_exist() -> None:
    assert {slug for caution in load_cautions() for slug in caution.stations} <= STATIONS.keys()


def test_every_caution_is_met_in_some_recipe() -> None:
    met = {
        caution.key
        for recipe in load_shipped()
        for job in recipe.jobs
        for caution in cautions_for(job.systems, job.kinds, job.stations)
    }
    assert met == set(WORST_FIRST)


def test_every_safety_system_but_fire_brings_up_a_caution() -> None:
    assert {system for system in SAFETY_SYSTEMS if not keys(system)} == {"fire"}


def test_an_unknown_word_is_refused_and_a_station_of_ones_own_is_not() -> None:
    with pytest.raises(ValueError, match="'flux' is not a known system"):
        cautions_for(["flux"])
    assert cautions_for(stations=["blast-cabinet"]) == ()
