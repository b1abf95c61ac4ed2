"""No file of ours is longer than 300 lines, no line longer than 120 characters."""

import pytest

from tests.house.places import files, shown

WALL = 300
WIDTH = 120
WRITTEN = [file for pattern in ("*.py", "*.html", "*.css", "*.js") for file in files(pattern)]
DATA = list(files("*.toml"))


@pytest.mark.parametrize("file", WRITTEN + DATA, ids=shown)
def test_no_file_is_longer_than_the_wall(file):
    assert len(file.read_text().splitlines()) <= WALL


@pytest.mark.parametrize("file", WRITTEN, ids=shown)
def test_no_line_is_wider_than_the_page(file):
    assert [line for line in file.read_text().splitlines() if len(line) > WIDTH] == []
