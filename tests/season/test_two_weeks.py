"""Two weeks of a made garage: nothing breaks, and all places say the same at every step."""

import pytest

from tests.season.made_garage import make_garage
from tests.season.people import Season
from tests.season.report import Odds
from tests.season.weeks import live

# What a fortnight must bring, or it proves nothing: an event with its ends, a late part, an absence, a cold week.
BROUGHT = (
    *("recipe", "entry", "part", "absence", "weather", "start", "put down", "finding", "reading", "finish", "signed"),
    *("list", "ticks", "went", "first session", "strip-down"),
)


@pytest.mark.once
@pytest.mark.django_db
@pytest.mark.usefixtures("few_runs")
def test_two_weeks_in_a_garage(clock):
    season = Season(make_garage(), clock, seed=7)
    live(season, weeks=2, morning=Odds(season).morning)
    assert season.wrong == []
    assert [name for name in BROUGHT if not season.figures[name]] == []
    assert season.figures["finish"] > 25
    assert len(season.moved) > 50
