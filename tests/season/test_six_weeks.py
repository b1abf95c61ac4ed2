"""Six weeks of the made garage with all that is put on its cars: `make season`, which prints its figures."""

import os

import pytest

from tests.season.made_garage import make_garage
from tests.season.people import Season
from tests.season.report import Odds, calibration
from tests.season.weeks import WEEKS, asked_for, live

SEEDS = [int(seed) for seed in os.environ.get("SEED", "7").split()]


@pytest.fixture(scope="module")
def came(request):
    """What came of the odds of every season; told together once all of them are over."""
    came = []
    yield came
    if len(SEEDS) > 1:
        with request.config.pluginmanager.getplugin("capturemanager").global_and_fixture_disabled():
            print("", f"all of the seeds {', '.join(map(str, SEEDS))}", *calibration(came), sep="\n")


@asked_for
@pytest.mark.django_db
@pytest.mark.usefixtures("few_runs")
@pytest.mark.parametrize("seed", SEEDS)
def test_the_season(clock, capsys, seed, came):
    season = Season(make_garage(), clock, seed=seed)
    odds = Odds(season)
    live(season, weeks=WEEKS, busy=True, morning=odds.morning)
    odds.settle()
    came += [one for of_entry in odds.came.values() for one in of_entry]
    with capsys.disabled():
        print("", f"seed {seed}", *odds.lines(), sep="\n")
    assert season.wrong == []
