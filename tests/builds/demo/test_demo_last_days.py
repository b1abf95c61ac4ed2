"""The last days of the demo garage are true: with a part that comes then its car is in time, a day later it is not."""

from datetime import timedelta

import pytest

from builds.odds.in_time import in_time
from builds.plan.actions.follow import make_plan
from builds.plan.actions.last_days import find_last_days
from builds.plan.actions.plans import best, draft
from builds.plan.engine.ids import id_of
from builds.plan.facts.last_days import last_days
from builds.plan.facts.stored import read
from builds.work.models.need import Need
from tests.factories import NOW

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
DAY = timedelta(days=1)


def test_each_of_them(demo):
    plan = read(make_plan(demo, at=NOW), demo)
    find_last_days(plan.row.pk, seconds=60)
    days = last_days(demo).days
    assert days
    for pk, day in days.items():
        car = plan.jobs[id_of("job", pk)].vehicle
        for comes, makes_it in ((day, True), (day + DAY, False)):
            Need.objects.filter(job=pk, got_at=None).update(expected_on=comes)
            case = draft(demo, NOW, plan)
            assert in_time(case.problem, best(case, plan), car) is makes_it, (plan.jobs[id_of("job", pk)].title, comes)
        Need.objects.filter(job=pk, got_at=None).update(expected_on=None)
