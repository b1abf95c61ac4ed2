"""The lists that ship, an organiser's pasted lines, what stands first, what a tick outlives."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from builds.scrutineering.engine.check_list import (
    FIRST_RUN,
    LINE_MAX,
    LINES_MAX,
    ListItem,
    load_items,
    own_items,
)
from builds.scrutineering.engine.lacks import Lack
from builds.scrutineering.engine.scrutineering import in_order, items_for, touched_since
from builds.work.engine.car_work import CarWork
from garage.engine.systems import SYSTEMS

NOW = datetime(2027, 3, 2, 17, 0, tzinfo=UTC)
PEDAL = ListItem("Brakes", "Pedal hard", ("brakes",), ("hydraulics_opened",))
PADS = ListItem("Brakes", "Pads thick", ("brakes",))
PANEL = ListItem("Body", "Panels fixed", ("body",))


def work(title, systems, hours, kinds=()):
    ended = None if hours is None else NOW - timedelta(hours=hours)
    return CarWork(title, frozenset(systems), frozenset(kinds), ended)


def test_the_shipped_list_covers_what_can_hurt_and_has_no_text_twice():
    items = load_items()
    assert len({item.text for item in items}) == len(items) > 50
    touched = {system for item in items for system in item.systems}
    assert touched >= {slug for slug, system in SYSTEMS.items() if system.safety}
    assert all(len(item.text) <= LINE_MAX for item in items)


def test_after_the_first_session_five_things_are_looked_at_again():
    items = load_items(FIRST_RUN)
    words = ["nuts", "Jam nuts", "leak", "pressures", "Belts"]
    assert len(items) == 5
    assert all(word in item.text for word, item in zip(words, items, strict=True))


def test_what_a_car_lacks_is_left_out_only_once_somebody_has_said():
    items = load_items()
    assert items_for(items) == items
    bare = items_for(items, has=())
    assert 0 < len(bare) < len(items)
    assert all(not item.has for item in bare)
    assert "cage-whole" in {item.key for item in items_for(items, has=("cage",))}


def test_an_organisers_line_takes_the_place_of_the_same_shipped_one():
    own = (ListItem("Club", "PEDAL HARD"),)
    assert items_for((PEDAL, PANEL), own) == (own[0], PANEL)


def test_pasted_lines_lose_their_bullets_and_gain_their_headings():
    text = "1. Doors shut\n\nBrakes:\n - Pedal hard\n[ ] Pedal hard\n# Fuel\n• Cap  tight\n"
    found = own_items(text, "Kiln Lane Club")
    assert [(item.section, item.text) for item in found] == [
        ("Kiln Lane Club", "Doors shut"),
        ("Brakes", "Pedal hard"),
        ("Fuel", "Cap tight"),
    ]
    assert found[2].systems == ("fuel",)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "at least one thing"),
        ("Brakes:\n\n", "at least one thing"),
        ("x" * (LINE_MAX + 1), "longer than"),
        ("\n".join(f"Thing {n}" for n in range(LINES_MAX + 1)), "are the most"),
    ],
)
def test_a_list_that_is_none_is_refused(text, said):
    with pytest.raises(ValueError, match=said):
        own_items(text, "Club")


def test_as_many_lines_as_are_let_are_all_kept():
    assert len(own_items("\n".join(f"Thing {n}" for n in range(LINES_MAX)), "Club")) == LINES_MAX


@pytest.mark.parametrize(
    ("line", "systems"),
    [
        ("Wheel nuts torqued", ("wheels",)),
        ("Steering wheel tight", ("steering",)),
        ("Battery clamped", ("electrics",)),
        ("Sandwiches", ()),
    ],
)
def test_a_line_says_what_it_is_about(line, systems):
    [item] = own_items(line, "Club")
    assert item.systems == systems


def test_a_line_is_no_part_of_the_name_above_it():
    [nuts, pads] = own_items("Steering:\nWheel nuts tight\nBrakes:\nPads", "Club")
    assert (nuts.systems, pads.systems) == (("steering", "wheels"), ("brakes",))


def test_what_is_owed_stands_before_what_was_touched_and_that_before_the_rest():
    lack = Lack("Owed: wing is not back.", frozenset({"body"}))
    done = work("Bleed the brakes", ["brakes"], 5)
    ordered = in_order((ListItem("Fuel", "Cap"), PEDAL, PANEL), [lack], [done])
    assert [(each.item.text, each.why) for each in ordered] == [
        ("Panels fixed", "Owed: wing is not back."),
        ("Pedal hard", "“Bleed the brakes” was worked on until 2 Mar."),
        ("Cap", ""),
    ]


def test_the_kind_of_work_that_an_item_names_stands_before_its_system_and_late_before_early():
    opened = work("Open the lines", ["brakes"], 50, ["hydraulics_opened"])
    panel = work("Straighten the door", ["body"], 1)
    ordered = in_order((PADS, PANEL, PEDAL), works=[opened, panel])
    assert [each.item for each in ordered] == [PEDAL, PANEL, PADS]


def test_work_in_hand_stands_first_of_what_was_touched():
    ordered = in_order((PANEL, PADS), works=[work("Door", ["body"], 1), work("Pads", ["brakes"], None)])
    assert ordered[0].why == "“Pads” is in hand."


def test_a_tick_outlives_earlier_work_and_other_systems_and_nothing_else():
    before, after = work("A", ["brakes"], 5), work("B", ["brakes"], 1)
    ticked = NOW - timedelta(hours=3)
    assert touched_since(["brakes"], ticked, [before]) == ""
    assert touched_since(["body"], ticked, [after]) == ""
    assert touched_since([], ticked, [after]) == ""
    opened = work("D", [], 1, ["hydraulics_opened"])
    assert touched_since(["brakes"], ticked, [opened]) == ""
    assert touched_since(["brakes"], ticked, [opened], PEDAL.kinds).startswith("Touched since: “D”")
    assert touched_since(["brakes"], ticked, [before, after]).startswith("Touched since: “B”")
    seen = replace(opened, seen=True, words="“Pedal soft” was found on 2 Mar.")
    assert touched_since([], ticked, [seen], PEDAL.kinds) == "Seen since: “Pedal soft” was found on 2 Mar."
    assert touched_since([], ticked, [seen], ["wheel_off"]) == "", "no wheel came off for that"
    assert touched_since(["brakes"], NOW, [work("C", ["brakes"], None)]) == ("Touched since: “C” is in hand.")


def test_a_tick_on_what_a_wheel_off_disturbs_goes_with_all_that_takes_one_off():
    caliper = work("Caliper", ["brakes"], None, ["hydraulics_opened"])
    off = replace(caliper, title="Owed: Caliper", off=True)
    assert touched_since((), NOW, [caliper], ["wheel_off"]) == "Touched since: “Caliper” is in hand."
    said = "Touched since: “Owed: Caliper” is not done: a part is off the car."
    assert touched_since((), NOW, [off], ["wheel_off"]) == said
    assert touched_since((), NOW, [caliper], ["pin_out"]) == ""
