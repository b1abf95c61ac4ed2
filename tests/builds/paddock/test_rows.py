"""Which lines of the day lie open, and that each stands in one place."""

import pytest

from builds.paddock.pages.rows import LINES_OPEN, PaddockItem, counted


def lines(**sections):
    """`brakes="o.x"`: a line open, one ticked, one left out."""
    states = {"o": "open", ".": "ticked", "x": "left_out", "-": "left"}
    return [
        PaddockItem(f"check-{section}-{number}", "", states[mark], "", 0, (), section=section)
        for section, marks in sections.items()
        for number, mark in enumerate(marks)
    ]


def test_of_a_long_list_the_first_section_still_to_do_lies_open_and_the_rest_is_counted():
    group = counted("Scrutineering", lines(queue="..", brakes=".oo", fuel="oo.x"), "ticked")
    assert (group.line, group.due, group.short) == ("5 of 9", True, True)
    assert [(section.title, section.line) for section in group.sections] == [
        ("queue", "2 of 2"),
        ("brakes", "1 of 3"),
        ("fuel", "2 of 4"),
    ]
    assert group.first.title == "brakes"
    assert (group.others.title, group.others.line) == ("Other sections", "4 of 6")


@pytest.mark.parametrize(("many", "open_now"), [(LINES_OPEN, True), (LINES_OPEN + 1, False)])
def test_a_section_that_is_long_opens_with_a_tap_alone(many, open_now):
    group = counted("To pack", lines(tools="o" * many, papers="o"), "packed")
    assert (group.first is not None, group.short) == (open_now, open_now)
    assert group.others.title == ("Other sections" if open_now else "Sections")


def test_a_short_list_has_no_sections_and_a_long_one_without_them_stays_folded():
    short = counted("To pack", lines(tools="o" * (LINES_OPEN - 1), papers="o"), "packed")
    assert (short.sections, short.others, short.short) == ((), None, True)
    alone = counted("To pack", lines(tools="o" * (LINES_OPEN + 1)), "packed")
    assert (alone.sections, alone.short) == ((), False)


def test_what_stays_here_is_not_among_what_is_to_be_packed():
    assert counted("To pack", lines(tools="oo-"), "packed").line == "0 of 2"
    assert not counted("Scrutineering", lines(brakes=".x"), "ticked").due
