"""No file of ours is longer than 300 lines, no line longer than 120 characters."""

from tests.house.places import breaking, files, text_of

WALL = 300
WIDTH = 120
WRITTEN = [file for pattern in ("*.py", "*.html", "*.css", "*.js") for file in files(pattern)]
DATA = list(files("*.toml"))


def past_the_wall(text):
    """How many lines, where they are too many."""
    return lines if (lines := len(text.splitlines())) > WALL else 0


def past_the_margin(text):
    return [line for line in text.splitlines() if len(line) > WIDTH]


def test_no_file_is_longer_than_the_wall():
    assert breaking(WRITTEN + DATA, lambda file: past_the_wall(text_of(file))) == {}


def test_no_line_is_wider_than_the_page():
    assert breaking(WRITTEN, lambda file: past_the_margin(text_of(file))) == {}


def test_a_line_too_many_and_a_letter_too_many_are_found():
    assert (past_the_wall("line\n" * 300), past_the_wall("line\n" * 301)) == (0, 301)
    assert (past_the_margin("é" * 120), past_the_margin("é" * 121)) == ([], ["é" * 121])


def test_files_of_every_kind_are_read():
    assert {file.suffix for file in WRITTEN + DATA} == {".py", ".html", ".css", ".js", ".toml"}
