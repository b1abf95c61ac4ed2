"""DEVELOPERS.md and the map name the rooms as the import contracts do."""

import re

from tests.house.draw_rooms import FILE, drawing
from tests.house.places import ROOT
from tests.house.rooms import OUTER, contract, rooms

ROW = re.compile(r"^\| `builds/(\w+)/` \| (.+) \|$", re.M)


def test_the_guide_lists_every_room_in_the_order_of_the_contract_with_its_own_first_line():
    told = ROW.findall((ROOT / "DEVELOPERS.md").read_text())
    assert told == [(room.name, room.holds.removesuffix(".")) for room in rooms()]


def test_every_folder_of_builds_is_a_room_or_serves_them_all():
    folders = {file.parent.name for file in (ROOT / "builds").glob("*/__init__.py")}
    assert folders == {room.name for room in rooms()} | (OUTER - {"urls"}) | {"migrations", "models"}


def test_every_room_but_the_plain_engines_has_its_layers_held():
    held = {name.removeprefix("builds.") for name in contract("Inside a room")["containers"]}
    assert held == {room.name for room in rooms()} - {"bench", "planner", "odds"}


def test_the_map_is_drawn_from_the_contracts_as_they_are():
    assert FILE.read_text() == drawing(), "the map is stale: make map"
