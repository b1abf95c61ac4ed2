"""A lonely car, a late entry of it, and doing deeds as the owner."""

import pytest

from builds.remedies.actions import remedies
from tests.builds.remedies.remedy_kit import late_entry, lonely_car
from tests.factories import NOW


@pytest.fixture(autouse=True)
def _on_that_day(db, now):
    """Every deed is done to the database, at a moment that stands still."""


@pytest.fixture
def car(cast):
    return lonely_car(cast)


@pytest.fixture
def late(cast, car):
    return late_entry(cast, car)


@pytest.fixture
def do(cast):
    """Does deeds, and answers with what the page then says."""
    return lambda *deeds: remedies.apply(deeds, by=cast.owner, at=NOW)
