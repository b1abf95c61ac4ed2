"""The last days of the demo garage are true: with a part that comes then its car is in time, a day later it is not."""

from datetime import timedelta

import pytest

from builds.needs.facts.wants import wants_of
from builds.odds.in_time import in_time
from builds.plan.actions.follow import make_plan
from builds.plan.actions.last_days import of_plan
from builds.plan.actions.plans import best, draft
from builds.plan.engine.ids import id_of
from builds.plan.facts.stored import read
from builds.work.facts.work import load_work
from builds.work.models.need import Need
from tests.factories import NOW

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
DAY = timedelta(days=1)


def test_each_of_them(demo):
    plan = read(make_plan(demo, at=NOW), demo)
    days = of_plan(plan, wants_of(load_work(demo, NOW)), seconds=60)
    assert days
    for pk, day in days.items():
        car = plan.jobs[id_of("job", pk)].vehicle
        for comes, makes_it in ((day, True), (day + DAY, False)):
            Need.objects.filter(job=pk, got_at=None).update(expected_on=comes)
            case = draft(demo, NOW, plan)
            assert in_time(case.problem, best(case, plan), car) is makes_it, (plan.jobs[id_of("job", pk)].title, comes)
        Need.objects.filter(job=pk, got_at=None).update(expected_on=None)
