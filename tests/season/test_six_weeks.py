"""Six weeks of the made garage with all that is put on its cars: `make season`, which prints its figures."""

import os

import pytest

from tests.season.made_garage import make_garage
from tests.season.people import Season
from tests.season.report import Odds
from tests.season.weeks import WEEKS, asked_for, live


@asked_for
@pytest.mark.django_db
def test_the_season(clock, capsys):
    season = Season(make_garage(), clock, seed=int(os.environ.get("SEED", "7")))
    odds = Odds(season)
    live(season, weeks=WEEKS, busy=True, morning=odds.morning)
    odds.settle()
    with capsys.disabled():
        print("", *odds.lines(), sep="\n")
    assert season.wrong == []
