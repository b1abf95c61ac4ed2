"""Numbers of rows within a text, where a garage comes to another server."""

import pytest

from garage.engine.open_files.renumber import key_of_pack_line


@pytest.mark.parametrize(
    ("key", "table", "anew", "gone"),
    [
        ("part:12", "parts_part", "part:7", "part:gone-12"),
        ("owed:12", "builds_owed", "owed:7", "owed:gone-12"),
        ("always:tools:car:12", "garage_vehicle", "always:tools:car:7", "always:tools:car:gone-12"),
    ],
)
def test_a_line_of_a_pack_list_keeps_what_it_is_about(key, table, anew, gone):
    assert key_of_pack_line(key, {}, lambda *row: {(table, 12): 7}.get(row)) == anew
    assert key_of_pack_line(key, {}, lambda *row: None) == gone


def test_a_line_about_nothing_stays():
    assert key_of_pack_line("always:gloves", {}, lambda *row: 7) == "always:gloves"
