"""Two who follow the plan at once, and writes meanwhile: one plan for the same facts, and never an older one."""

import threading

import pytest
from django.db import connection, connections, transaction

from builds.plan.actions import follow as following
from builds.plan.actions.follow import follow_write
from builds.plan.facts.standing import holds, same_facts
from builds.plan.facts.stored import shown
from builds.plan.models import Plan
from garage import writes
from garage.models import Garage
from tests.builds.plan.plan_kit import enter, evenings, job
from tests.conftest import make_cast
from tests.factories import NOW, VehicleFactory

pytestmark = [
    pytest.mark.django_db(transaction=True),
    pytest.mark.skipif(connection.vendor != "postgresql", reason="needs writers that wait for each other: PostgreSQL"),
]
ONES = 4


@pytest.fixture
def cast():
    return make_cast()


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    enter(car)
    for number in range(12):
        job(car, cast, f"Job {number}")
    return car


def at_once(*deeds):
    """Each in a thread of its own, begun together; what went wrong is raised."""
    line, wrong = threading.Barrier(len(deeds)), []

    def run(deed):
        try:
            line.wait(timeout=20)
            deed()
        except Exception as error:
            wrong.append(error)
        finally:
            connections.close_all()

    threads = [threading.Thread(target=run, args=[deed]) for deed in deeds]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=60)
    assert wrong == []


class Anybody(dict):
    """As if each thread were a process of its own, which no lock in memory holds back."""

    def __missing__(self, key):
        return threading.Lock()


@pytest.mark.parametrize("apart", [False, True])
def test_one_plan_is_kept_for_the_same_facts(cast, car, monkeypatch, apart):
    if apart:
        monkeypatch.setattr(following, "_one_at_a_time", Anybody())
    made, put_up = [], following.put_up
    monkeypatch.setattr(following, "put_up", lambda *args, **more: made.append(put_up(*args, **more)))
    at_once(*[lambda: follow_write(cast.garage.pk, at=NOW)] * ONES)
    assert len(made) == Plan.objects.in_garage(cast.garage).count() == 1


def test_writes_at_once_end_with_a_plan_of_the_last_of_them(cast, car, now, monkeypatch):
    """Each is followed after its commit, by nobody but the hook; whoever is overtaken too often gives way."""
    monkeypatch.setattr(following, "_one_at_a_time", Anybody())

    def write(number):
        def deed():
            with transaction.atomic():
                job(car, cast, f"New {number}")
                writes.count(cast.garage.pk, at=NOW)

        return deed

    at_once(*map(write, range(ONES)))
    garage = Garage.objects.get(pk=cast.garage.pk)
    wall = shown(garage)
    assert garage.writes == ONES
    assert len(wall.jobs) == 12 + ONES
    assert holds(garage, NOW) and same_facts(wall, garage)
    assert Plan.objects.in_garage(garage).count() == 1
