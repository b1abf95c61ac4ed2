"""What a car is short of is said in a sentence, and concerns the items that look at it."""

import pytest

from builds.gear.engine import GearFact
from builds.scrutineering.engine.check_list import load_items
from builds.scrutineering.engine.lacks import GEAR_ITEMS, SAID, gear_lack, owed_lack
from garage.engine.gear import KINDS


@pytest.mark.parametrize(("state", "said"), SAID.items())
def test_gear_that_does_not_pass_is_said_with_its_state(state, said):
    lack = gear_lack(GearFact(1, "Shoulder straps", state, "Ran out on 31 March 2026.", "belts"))
    assert lack.words == f"Shoulder straps: {said}. Ran out on 31 March 2026."
    assert lack.keys == set(GEAR_ITEMS["belts"])


def test_gear_that_no_item_looks_at_concerns_none():
    lack = gear_lack(GearFact(1, "Radio", "undated"))
    assert (lack.words, lack.keys) == ("Radio: not known to be in date.", frozenset())
    assert not any(lack.concerns(item) for item in load_items())


def test_every_kind_of_gear_that_items_look_at_is_one_and_its_items_are_shipped():
    shipped = {item.key for item in load_items()}
    assert set(GEAR_ITEMS) <= set(KINDS)
    assert {key for keys in GEAR_ITEMS.values() for key in keys} <= shipped


def test_what_is_owed_concerns_the_items_of_its_systems():
    lack = owed_lack("rear caliper", ["brakes"])
    assert lack.words == "Owed: rear caliper is not back."
    concerned = [item for item in load_items() if lack.concerns(item)]
    assert concerned and all("brakes" in item.systems for item in concerned)
