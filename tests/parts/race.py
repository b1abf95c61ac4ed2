"""A race for the last parts, run by the test of it as a process of its own: prints JSON.

A process of its own because the tests' own SQLite is in memory, where threads share a connection.
"""

import json
import multiprocessing
import sys
import uuid
from collections import Counter
from threading import Barrier, Thread

import django
from django.test.utils import setup_test_environment

THREADS, PROCESSES = 16, 8


def at_once(act) -> Counter:
    """What each of the threads got, let loose together; a connection of its own for each."""
    from django.db import connection

    from garage.actions.refused import Refused

    barrier, got = Barrier(THREADS), []

    def run():
        barrier.wait()
        try:
            got.append(act())
        except Refused as refused:
            got.append(f"refused: {refused}")
        except Exception as error:
            got.append(f"{type(error).__name__}: {error}")
        finally:
            connection.close()

    threads = [Thread(target=run) for _ in range(THREADS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return Counter(got)


def run(rounds: int) -> dict:
    from builds.shelf.actions import shelf
    from parts.actions.parts import add_place
    from parts.actions.places import car_place
    from parts.actions.snapshot import faults
    from parts.models import Balance, Move
    from tests.conftest import signed_in
    from tests.factories import NOW, MembershipFactory, VehicleFactory
    from tests.parts.factories import PartFactory, PlaceFactory

    member = MembershipFactory(role="owner")
    spot = PlaceFactory(garage=member.garage, name="Shelf A")
    car = VehicleFactory(garage=member.garage)
    by = {"by": member, "at": NOW}
    found = {"there": 0, "fitted": 0, "on_car": 0, "got": Counter()}

    def fit(part):
        shelf.carry_out(part, "fit", quantity=1, source=spot, car=car, all_along=True, **by)
        return "fitted"

    for number in range(rounds):
        part = PartFactory(garage=member.garage, name="Hub nut")
        there = 1 + number % 5
        shelf.carry_out(part, "receive", quantity=there, target=spot, **by)
        got = at_once(lambda part=part: fit(part))
        found["there"] += there
        found["fitted"] += got["fitted"]
        found["on_car"] += Balance.objects.get(part=part, place=car_place(car)).quantity
        found["got"] += got
    part = PartFactory(garage=member.garage, name="Hub nut")
    shelf.carry_out(part, "receive", quantity=THREADS, target=spot, **by)
    client, key = signed_in(member), str(uuid.uuid4())
    cookie = client.cookies.output(header="", attrs=[]).strip()

    def tap():
        from django.test import Client

        path = f"/parts/{part.pk}/move/pull/"
        data = {"key": key, "quantity": 1, "source": spot.pk}
        return str(Client(headers={"cookie": cookie}).post(path, data).status_code)

    found["taps"] = at_once(tap)
    found["pulled"] = Move.objects.filter(part=part, verb="pull").count()
    found["places"] = at_once(lambda: str(add_place(member.garage, kind="bin", name="Bin 7", walk_order=1)))
    found["faults"] = len(faults())
    return found


def run_processes(rounds: int) -> dict:
    """Eight processes, each with a connection of its own, try for each part together."""
    from django.db import connections

    from builds.shelf.actions import shelf
    from garage.actions.refused import Refused
    from parts.actions.places import car_place
    from parts.actions.snapshot import faults
    from parts.models import Balance
    from tests.factories import NOW, MembershipFactory, VehicleFactory
    from tests.parts.factories import PartFactory, PlaceFactory

    member = MembershipFactory(role="owner")
    spot = PlaceFactory(garage=member.garage, name="Shelf A")
    car = VehicleFactory(garage=member.garage)
    by = {"by": member, "at": NOW}
    parts = [PartFactory(garage=member.garage, name="Hub nut") for _ in range(rounds)]
    for number, part in enumerate(parts):
        shelf.carry_out(part, "receive", quantity=1 + number % 3, target=spot, **by)
    connections.close_all()
    fork = multiprocessing.get_context("fork")
    barrier, said = fork.Barrier(PROCESSES), fork.Queue()

    def work():
        got = Counter()
        for part in parts:
            barrier.wait()
            try:
                shelf.carry_out(part, "fit", quantity=1, source=spot, car=car, all_along=True, **by)
                got["fitted"] += 1
            except Refused as refused:
                got[f"refused: {refused}"] += 1
            except Exception as error:
                got[f"{type(error).__name__}: {error}"] += 1
        connections.close_all()
        said.put(got)

    workers = [fork.Process(target=work) for _ in range(PROCESSES)]
    for worker in workers:
        worker.start()
    got = sum((said.get() for _ in workers), Counter())
    for worker in workers:
        worker.join()
    held = Balance.objects.filter(place=car_place(car), part__in=parts)
    return {
        "there": sum(1 + number % 3 for number in range(rounds)),
        "got": got,
        "on_car": sum(held.values_list("quantity", flat=True)),
        "faults": len(faults()),
    }


if __name__ == "__main__":
    django.setup()
    setup_test_environment(debug=False)
    print(json.dumps({"threads": run(int(sys.argv[1])), "processes": run_processes(int(sys.argv[2]))}))
