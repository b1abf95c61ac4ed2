"""No file of ours is longer than 300 lines."""

import pytest

from tests.house.places import files, shown

WALL = 300
OURS = [file for pattern in ("*.py", "*.html", "*.css", "*.js", "*.toml") for file in files(pattern)]


@pytest.mark.parametrize("file", OURS, ids=shown)
def test_no_file_is_longer_than_the_wall(file):
    assert len(file.read_text().splitlines()) <= WALL
