"""What a job eats: an amount and a name, and which name on a shelf is meant."""

import pytest

from builds.recipes.engine.eats import Eaten, best, eaten


@pytest.mark.parametrize(
    ("line", "read"),
    [
        ("1000 ml brake fluid", Eaten("brake fluid", 1000, "ml")),
        ("4 split pins", Eaten("split pins", 4, "piece")),
        ("20 g grease", Eaten("grease", 20, "g")),
        ("500 mm heat-shrink", Eaten("heat-shrink", 500, "mm")),
    ],
)
def test_an_amount_and_a_name_are_read(line, read):
    assert eaten(line) == read


@pytest.mark.parametrize("line", ["", "brake fluid", "0 pins", "9999999 pins", "-1 pin", "4", "4 "])
def test_what_is_neither_is_refused(line):
    with pytest.raises(ValueError, match="which is not an amount and a name"):
        eaten(line)


@pytest.mark.parametrize(
    ("name", "shelf", "meant"),
    [
        ("split pins", ["Split pin", "Split pin 3 mm"], 0),
        ("split pins", ["Nut", "Split pin 3 mm"], 1),
        ("split pins", ["Split pin 2 mm", "Split pin 3 mm"], None),
        ("coolant", ["Cool box"], None),
        ("self-locking nuts", ["Nuts, self-locking"], 0),
    ],
)
def test_the_one_that_is_meant(name, shelf, meant):
    assert best(name, shelf) == meant
