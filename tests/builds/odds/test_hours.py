"""Where work ends that is begun at some moment, by hours in minutes."""

import pytest

from builds.odds.hours import NEVER, Hours, Sittings

EVENINGS = ((4, 8), (20, 24))  # slots of 15 minutes: 60-120 and 300-360


@pytest.mark.parametrize(
    ("at", "work", "start", "end"),
    [
        (0, 30, 60, 90),
        (60, 60, 60, 120),
        (90, 30, 90, 120),
        (90, 31, 90, 301),
        (90, 90, 90, 360),
        (120, 15, 300, 315),
        (200, 60, 300, 360),
        (77.5, 12.25, 77.5, 89.75),
        (90, 0, 90, 90),
        (130, 0, 130, 130),
        (90, 91, 90, NEVER),
        (360, 1, NEVER, NEVER),
        (NEVER, 5, NEVER, NEVER),
        (NEVER, 0, NEVER, NEVER),
    ],
)
def test_work_that_splits_stops_and_goes_on(at, work, start, end):
    hours = Hours(EVENINGS, 15)
    assert (hours.start(at, work), hours.end(at, work)) == (start, end)


def test_nothing_is_ever_done_without_hours():
    assert Hours((), 15).end(0, 1) == NEVER
    assert Sittings((), 15, 15).end(0, 1) == NEVER


@pytest.mark.parametrize(
    ("at", "work", "start", "end"),
    [
        (0, 45, 60, 105),
        (75, 45, 75, 120),
        (76, 45, 300, 345),  # 45 minutes no longer fit
        (76, 10, 300, 310),  # nobody knew it would be short
        (75, 100, 75, 175),  # overran, and is seen through
        (316, 45, NEVER, NEVER),
        (NEVER, 45, NEVER, NEVER),
    ],
)
def test_work_in_one_sitting_begins_where_the_plan_for_it_fits(at, work, start, end):
    sittings = Sittings(EVENINGS, 15, planned=45)
    assert (sittings.start(at, work), sittings.end(at, work)) == (start, end)


def test_a_sitting_longer_than_every_window_never_begins():
    assert Sittings(EVENINGS, 15, planned=75).start(0, 10) == NEVER
