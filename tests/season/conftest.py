"""What the weeks of a season share."""

import pytest

from tests.season.report import RUNS


@pytest.fixture
def few_runs(monkeypatch):
    """The odds of each morning from so few runs that they take no longer than the day."""
    monkeypatch.setattr("builds.plan.actions.odds.RUNS", RUNS)
