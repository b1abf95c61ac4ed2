"""The forms that are sent until Badger of the demo garage is fit, one by one and by the forms that take several."""

import pytest

from builds.demo.actions.garage import load_demo
from builds.readings.models.reading import Reading
from builds.scrutineering.models.check import CheckItem
from builds.work.models.job import Job
from builds.work.models.need import Need
from tests.factories import NOW
from tests.season.walk import Walk, set_up

pytestmark = [pytest.mark.once, pytest.mark.django_db]
CEILING = 30


def walked(clock, *, at_once: bool) -> Walk:
    garage = load_demo(at=clock.at)
    badger = garage.vehicles.get(name="Badger")
    set_up(garage, badger, clock.at)
    walk = Walk(badger, clock, at_once=at_once)
    walk.walk()
    verdict = walk.verdict()
    assert verdict.state == "fit", [reason.sentence for reason in verdict.reasons] or verdict.not_recorded
    return walk


def test_badger_is_fit_after_so_few_forms(clock):
    walk = walked(clock, at_once=True)
    print(walk.total, dict(walk.acts))
    assert walk.total <= CEILING
    # Nothing went unsaid for it: parts, readings and ticks are those of the longer way.
    assert not Need.objects.filter(job__vehicle=walk.car, got_at=None).exists()
    taken = set(Reading.objects.filter(vehicle=walk.car, written_at__gt=NOW).values_list("kind", flat=True))
    asked = {key for job in Job.objects.on(walk.car).finished_since(NOW) for key in job.measures}
    assert taken == asked
    assert not CheckItem.objects.filter(checklist__entry__vehicle=walk.car).exclude(state="ticked").exists()


def test_one_by_one_it_takes_more_than_twice_as_many(clock):
    walk = walked(clock, at_once=False)
    print(walk.total, dict(walk.acts), walk.item_by_item)
    assert walk.total > 2 * CEILING
    assert walk.item_by_item > 110
