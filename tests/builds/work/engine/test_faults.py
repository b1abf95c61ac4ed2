"""What is a fault: by its own words, or found on something that its words name; a recipe's job never is."""

import pytest

from builds.work.engine.faults import is_fault


@pytest.mark.parametrize(
    ("title", "recipe", "found", "fault"),
    [
        ("Brake hose leaks", "", False, True),
        ("Brake hose leaks", "", True, True),
        ("Brake hose", "", False, False),
        ("Brake hose", "", True, True),
        ("Sandwiches", "", True, False),
        ("Brake hose leaks", "brake-bleed", True, False),
        ("Brake hose leaks", "brake-bleed", False, False),
    ],
)
def test_by_its_words_or_where_it_was_found(title, recipe, found, fault):
    assert is_fault(title, recipe, found=found) is fault
