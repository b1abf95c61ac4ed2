"""Which daily backups stay, and what a file's name says."""

from datetime import UTC, datetime, timedelta, timezone

import pytest

from garage.engine.backup.keeping import backup_name, named_moment, spared

START = datetime(2026, 1, 1, 2, 10, tzinfo=UTC)


def made(*days, hour=0):
    moments = [START + timedelta(days=day, hours=hour) for day in days]
    return {backup_name(at, daily=True): at for at in moments}


def days_spared(*days):
    stay = spared(made(*days))
    return sorted((named_moment(name)[0] - START).days for name in stay)


@pytest.mark.parametrize("daily", [True, False])
def test_a_name_says_when_it_was_made_in_utc_and_how(daily):
    at = datetime(2026, 11, 30, 1, 0, tzinfo=timezone(timedelta(hours=2)))
    name = backup_name(at, daily=daily)
    assert name == f"witness-mark-{'daily-' if daily else ''}20261129T230000Z.zip"
    assert named_moment(name) == (at, daily)


@pytest.mark.parametrize(
    "name", ["garage.zip", "witness-mark-20261399T230000Z.zip", "witness-mark-20261129T230000Z.zip.part", ".DS", ""]
)
def test_other_files_are_none(name):
    assert named_moment(name) is None


def test_seven_days_stay_and_the_newest_of_weeks_and_months():
    # 1 January 2026 is a Thursday: the weeks end on days 3, 10, 17 …, the months on days 30, 58, 89.
    assert days_spared(*range(100)) == [30, 58, 73, 80, 87, 89, 93, 94, 95, 96, 97, 98, 99]


def test_of_one_day_the_newest_stays():
    two = made(5) | made(5, hour=9)
    assert spared(two) == {*made(5, hour=9)}


def test_a_long_holiday_loses_nothing():
    assert days_spared(0, 1, 2, 300) == [0, 1, 2, 300]


def test_a_year_of_them_is_at_most_24_files():
    assert len(spared(made(*range(365)))) <= 7 + 5 + 12


def test_nothing_made_nothing_spared():
    assert spared({}) == set()
