"""Buttons that arrive in another order than they were pressed in, each twice: none counts twice, none passes a rule."""

import random
import uuid
from collections import Counter

import pytest
from django.urls import reverse

from builds.work.models.job import Job
from builds.work.models.span import Span
from garage.models import Receipt
from parts.actions import stock
from parts.actions.places import house_place
from parts.models import Balance, Move
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

# What each button was drawn in, and what it makes of the job.
STEPS = [
    ("start", "open", "in_hand"),
    ("stop", "in_hand", "open"),
    ("start", "open", "in_hand"),
    ("hold", "in_hand", "held"),
]
SEEDS = range(5)


def sent_twice(presses, seed):
    """All of them in an order of their own, and each once more somewhere after."""
    order = random.Random(seed)
    shuffled = order.sample(presses, len(presses))
    return shuffled + order.sample(presses, len(presses))


@pytest.mark.parametrize("seed", SEEDS)
def test_steps_of_a_job(helper, cast, now, seed):
    job = JobFactory(vehicle=VehicleFactory(garage=cast.garage), made_by=cast.owner)
    presses = [
        (
            reverse(f"job_{step}", args=[job.pk]),
            {"key": str(uuid.uuid4()), "stood": stood, "reason": "waits for a part"},
            to,
        )
        for step, stood, to in STEPS
    ]
    state, first = "open", {}
    for path, data, to in sent_twice(presses, seed):
        answer, before = helper.post(path, data), Span.objects.filter(job=job).count()
        again = data["key"] in first
        counted = not again and data["stood"] == state
        state = to if counted else state
        job = Job.objects.get(pk=job.pk)
        assert job.state == state, (path, data)
        if again:
            assert answer.get("Idempotency-Replayed") == "true" or answer.status_code == 422
            assert Span.objects.filter(job=job).count() == before
        if answer.status_code == 303:
            first[data["key"]] = True
    spans = Span.objects.filter(job=job)
    assert spans.running().count() == 1
    assert spans.running().get().state == state


@pytest.mark.parametrize("seed", SEEDS)
def test_moves_of_a_part(helper, cast, now, seed):
    part, shelf = PartFactory(garage=cast.garage), PlaceFactory(garage=cast.garage)
    bench = house_place(cast.garage, "bench")
    stock.move(part, "receive", 3, house_place(cast.garage, "supplier"), shelf, by=cast.owner, at=NOW)
    many = {"pull": {"source": shelf.pk}, "put": {"source": bench.pk, "target": shelf.pk}}
    presses = [
        (reverse("part_move", args=[part.pk, verb]), {"key": str(uuid.uuid4()), "quantity": quantity, **many[verb]})
        for verb, quantity in (("pull", 1), ("pull", 2), ("put", 2), ("pull", 1))
    ]
    on_bench, taken = 0, set()
    for path, data in sent_twice(presses, seed):
        change = data["quantity"] if "pull" in path else -data["quantity"]
        answer = helper.post(path, data)
        goes = 0 <= on_bench + change <= 3
        if data["key"] in taken:
            assert answer["Idempotency-Replayed"] == "true"
        else:
            assert (answer.status_code == 303) == goes
            on_bench += change if goes else 0
            taken |= {data["key"]} if goes else set()
    assert Move.objects.filter(part=part).count() == 1 + len(taken)
    assert Receipt.objects.count() == len(taken)
    held = Counter(dict(Balance.objects.filter(part=part).values_list("place_id", "quantity")))
    assert (held[bench.pk], held[shelf.pk]) == (on_bench, 3 - on_bench)
