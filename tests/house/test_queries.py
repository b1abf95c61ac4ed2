"""How many queries a page takes, as it is served: no more than its ceiling, and none for each car."""

import uuid
from datetime import timedelta

import pytest
from django.db import connection, transaction
from django.db.models import F
from django.test.utils import CaptureQueriesContext

from builds.joints.models import Joint, JointMark
from builds.plan.actions.follow import make_plan
from builds.scrutineering.actions import check_lists
from builds.work.models.job import Job
from garage.models import Garage, Gear
from tests.builds.readings.reading_kit import limit, require, take
from tests.conftest import make_cast
from tests.factories import (
    NOW,
    EntryFactory,
    HoldPointFactory,
    JobFactory,
    LinkFactory,
    NeedFactory,
    SpanFactory,
    VehicleFactory,
)
from tests.house.every_address import TABLE, address, make_rows
from tests.house.query_plans import Asked

pytestmark = [pytest.mark.once, pytest.mark.board]

MOST = 19
# Files of all that is known, with what they take: each table is asked once.
BEYOND = {"garage_export_file": 167, "person_data": 60}
SOME = 6  # asked only where there is something: a wait that runs, a car among the first to leave, a sum kept
LOOKS = 12
HOUR = timedelta(hours=1)


@pytest.fixture(autouse=True)
def served(settings, monkeypatch, now):
    """As a server has it, where what the verdict rests on is remembered between two pages."""
    settings.REMEMBERS = True
    monkeypatch.setattr("garage.remembered._notes", {})


@pytest.fixture
def cast(transactional_db):
    """One of its own: nothing is remembered in the transaction that the others share."""
    return make_cast()


def whole_car(cast, event, number):
    """A car with some of everything: work of each state, joints, readings, gear, an entry with its list."""
    car = VehicleFactory(garage=cast.garage, name=f"Wagtail {number}")
    made = {"vehicle": car, "made_by": cast.owner, "kinds": ["joint_opened"], "systems": ["steering"]}
    batch = uuid.uuid4()
    done = JobFactory(**made, recipe="brake-overhaul", batch=batch, state="done", finished_at=NOW - 5 * HOUR)
    held = JobFactory(**made, recipe="brake-overhaul", batch=batch, state="held", finished_at=NOW - 4 * HOUR)
    HoldPointFactory(job=held)
    LinkFactory(before=done, after=held)
    LinkFactory(before=held, after=JobFactory(**made), wait_minutes=90)
    SpanFactory(job=JobFactory(**made, state="in_hand"), until_at=None)
    NeedFactory(job=JobFactory(**made))
    joint = Joint.objects.create(vehicle=car, name="Rod end", systems=["steering"], opened_by=["joint_opened"])
    JointMark.objects.create(joint=joint, by=cast.owner, at=NOW - HOUR, arrived_at=NOW, key=uuid.uuid4())
    require(car, cast.owner, "camber", "wheel_torque")
    take(car, "camber", cast.owner, at=NOW - 6 * HOUR)
    limit(car, "camber")
    Gear.objects.create(garage=cast.garage, vehicle=car, kind="belts", name="Belts", made_at=NOW)
    check_lists.make(EntryFactory(event=event, vehicle=car), by=cast.owner, at=NOW - HOUR)
    return car


def taken(client, rows):
    """Queries of each page that is read or drawn, by name, once the session is as it will stay."""
    counts = {}
    for name, (what, _, kind) in TABLE.items():
        if kind == "send" or kind == "door":
            continue
        path = address(name, what, rows)
        if client.get(path).status_code == 200:
            counts[name] = settled(client, path)
    return counts


def settled(client, path):
    """Queries once nothing more is found out by and by, as until when parts may come: some looks on a slow machine."""
    counts = [10**6]
    while len(counts) < LOOKS:
        with CaptureQueriesContext(connection) as asked:
            client.get(path)
        counts.append(len(asked))
        if counts[-1] == counts[-2]:
            break
    return counts[-1]


def test_no_page_asks_more_than_its_ceiling_nor_for_each_of_ten_cars_more(cast):
    rows, owner = make_rows(cast), cast.client("owner")
    event = cast.garage.events.get(pk=rows["event"])
    cars = [whole_car(cast, event, number) for number in range(2)]
    rows |= {"vehicle": cars[0].pk, "measured": cars[0].pk, "measured_kind": (cars[0].pk, "camber")}
    rows["job"] = Job.objects.on(cars[0]).filter(state="held").get().pk
    make_plan(cast.garage, at=NOW)
    with Asked().listening() as asked:
        two = taken(owner, rows)
        for name, (what, _, kind) in TABLE.items():
            if kind in ("form", "send"):
                with transaction.atomic():
                    owner.press(address(name, what, rows))
                    transaction.set_rollback(True)
    assert asked.through_all_garages() == ""
    assert len(two) > 90
    beyond = {name: count for name, count in two.items() if count > MOST}
    assert {name: count for name, count in beyond.items() if count > BEYOND.get(name, MOST)} == {}
    assert BEYOND.keys() - beyond.keys() == set()  # what has come down is named no more
    for number in range(10):
        whole_car(cast, event, 2 + number)
    Garage.objects.filter(pk=cast.garage.pk).update(writes=F("writes") + 1)  # as a page counts what it writes
    make_plan(cast.garage, at=NOW)
    twelve = taken(owner, rows)
    assert {name: (two[name], count) for name, count in twelve.items() if count > two.get(name, count) + SOME} == {}
