"""What was measured and tightened in years: readings with their figures, joints with their marks."""

import uuid
from collections.abc import Iterator
from datetime import timedelta

from builds.joints.models import Joint, JointMark
from builds.readings.engine import READINGS
from builds.readings.engine.fields import FIGURE, PASS, fields_of
from builds.readings.models.reading import Reading, ReadingValue
from builds.readings.models.target import RequiredReadings, Target
from tests.benchmarks.pages.base import CARS, Made

READINGS_A_YEAR, JOINTS_OF_A_CAR, MARKS_A_YEAR = 1000, 40, 12
MUST_HAVE = ("ride_height", "corner_weights", "camber", "toe_front", "brake_bleed", "wheel_torque")
OPENERS = ("joint_opened", "wheel_off", "hub_opened", "hydraulics_opened")
JOINT_SYSTEMS = ("suspension", "wheels", "steering", "brakes")


def readings(made: Made) -> None:
    for car in made.cars:
        given = {"kinds": list(MUST_HAVE), "chosen_by": made.owner, "chosen_at": made.at}
        RequiredReadings.objects.update_or_create(vehicle=car, defaults=given)
    kinds, moments = list(READINGS), made.moments(READINGS_A_YEAR * made.years)
    rows = [
        Reading(
            vehicle=made.cars[number % CARS],
            kind=kinds[number // CARS % len(kinds)],
            at=at,
            written_at=at,
            by=made.members[number % 3],
            instrument="the garage's own",
            fuel_ml=20_000,
            driver="aboard",
            front_pa=190_000,
            rear_pa=180_000,
            floor="levelled",
            bars="unhooked",
        )
        for number, at in enumerate(moments)
    ]
    taken = Reading.objects.bulk_create(rows, batch_size=500)
    ReadingValue.objects.bulk_create((value for reading in taken for value in _values(reading)), batch_size=500)
    Target.objects.bulk_create((target for car in made.cars for target in _targets(car)), ignore_conflicts=True)


def _values(reading: Reading) -> Iterator[ReadingValue]:
    for field in fields_of(reading.kind):
        low, high = field.likely or (PASS, PASS)
        middle = (low + high) // 2 if field.type == FIGURE else PASS
        unit = field.shown[0] if field.type == FIGURE else ""
        yield ReadingValue(reading=reading, field=field.slug, amount=middle, typed=str(middle), unit=unit)


def _targets(car) -> Iterator[Target]:
    for kind in MUST_HAVE:
        for field in fields_of(kind):
            if field.type == FIGURE and field.likely:
                low, high = field.likely
                yield Target(
                    vehicle=car,
                    kind=kind,
                    field=field.slug,
                    sort="between",
                    amount=low,
                    second=high,
                    typed=str(low),
                    second_typed=str(high),
                )


def joints(made: Made) -> None:
    """Each marked once a month and looked at by a second one the same evening."""
    rows = Joint.objects.bulk_create(
        Joint(
            vehicle=car,
            name=f"Joint {number}",
            systems=[JOINT_SYSTEMS[number % len(JOINT_SYSTEMS)]],
            opened_by=[OPENERS[number % len(OPENERS)]],
            figure_mnm=90_000,
            again_after_run=number % 4 == 0,
        )
        for car in made.cars
        for number in range(JOINTS_OF_A_CAR)
    )
    moments = made.moments(MARKS_A_YEAR * made.years)
    torqued = JointMark.objects.bulk_create(
        (
            JointMark(joint=joint, torque_mnm=90_000, by=made.members[0], at=at, arrived_at=at, key=uuid.uuid4())
            for at in moments
            for joint in rows
        ),
        batch_size=500,
    )
    later = timedelta(minutes=10)
    JointMark.objects.bulk_create(
        (
            JointMark(
                joint=mark.joint, signs=mark, by=made.members[1], at=mark.at + later, arrived_at=mark.at + later,
                key=uuid.uuid4(),
            )
            for mark in torqued
        ),
        batch_size=500,
    )  # fmt: skip
