"""What a recipe only reads on a car touches nothing that was ticked; what undoes something for it does."""

from datetime import timedelta

import pytest

from builds.recipes.engine.parse import load_shipped
from builds.scrutineering.pages.check_list import entry_checks
from tests.builds.scrutineering.check_kit import item_of, made, tap, worked
from tests.factories import NOW

pytestmark = pytest.mark.django_db
HOUR = timedelta(hours=1)
ROWS = {(recipe.key, job.title): job for recipe in load_shipped() for job in recipe.jobs}
BEFORE = "Read the car as it stands, before the work"
TICKED = {"steering-wheel", "quick-release", "dampers", "bars"}


def void_after(cast, shipped, title, **more):
    """Which of these items the job voids that was done after they were ticked, and why."""
    row, checklist = ROWS[shipped, title], made(cast)
    for key in TICKED:
        tap(item_of(checklist, key), "tick", cast.helper)
    said = {"kinds": list(row.kinds), "measures": list(row.measures), "recipe": shipped, **more}
    worked(checklist.entry.vehicle, title, list(row.systems), NOW + 3 * HOUR, **said)
    (view,) = entry_checks(checklist.entry, NOW + 4 * HOUR).lists
    return {check.item.key for check in view.rows if check.void and check.why}


@pytest.mark.parametrize(
    ("recipe", "title", "void"),
    [
        ("steering-arm-rework", BEFORE, set()),
        ("suspension-arm-replacement", BEFORE, set()),
        ("four-wheel-alignment", BEFORE, {"bars"}),  # unhooked while it stands on the scales
        ("steering-arm-rework", "Measure bump steer", {"steering-wheel", "quick-release"}),
    ],
)
def test_what_is_only_read_touches_nothing_but_what_is_undone_for_it(cast, recipe, title, void):
    assert void_after(cast, recipe, title) == void


@pytest.mark.parametrize("more", [{"kinds": ["jam_nut", "spring_change"]}, {"recipe": ""}])
def test_work_does_and_so_does_what_was_written_down_by_hand(cast, more):
    assert void_after(cast, "four-wheel-alignment", BEFORE, **more) == TICKED
