"""Names found in somebody's own words."""

import pytest

from garage.engine.names_said import NameTable, plain

TABLE = NameTable(
    {"steering": "track rod, rod end, rack", "brakes": "brake*, body", "both more": "rack end", "": "tyre rack"}
)


@pytest.mark.parametrize(
    ("text", "slugs"),
    [
        *(("new Track-Rods!", "steering"), ("trackrod", "steering"), ("track rod's cover", "steering")),
        *(
            ("the rack ends", "both more"),
            ("racks", "steering"),
            ("tyre racks", ""),
            ("tracks", ""),
            ("bodies", "brakes"),
        ),
        *(
            ("braking", ""),
            ("brakes", "brakes"),
            ("handbrake", ""),
            ("brake the body, rack", "brakes steering"),
            ("", ""),
        ),
        *(("track the rod", "steering"), ("track his rod", ""), ("brake rack", "brakes steering")),
    ],
)
def test_a_name_is_found_as_people_write_it_and_the_longest_wins(text, slugs):
    assert TABLE.said(text) == frozenset(slugs.split())


def test_what_leads_nowhere_is_left():
    assert TABLE.unheard("Mend the track rod, and handbrake") == "mend and handbrake"


def test_a_name_stands_there_once():
    for names in ("rack, rack", "coil over, coilover", "brake*, brake*"):
        with pytest.raises(ValueError, match="stands there twice"):
            NameTable({"one": names})


def test_words_are_laid_bare():
    assert plain(" The  driver’s SEAT-belt, (left) ") == "driver seat belt left"
