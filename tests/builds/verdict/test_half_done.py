"""What is put down half done leaves a joint loose only where its recipe takes something apart."""

import pytest

from builds.recipes.engine.parse import load_shipped
from builds.verdict.engine import Severity
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.span import Span
from tests.factories import NOW, JobFactory, VehicleFactory

pytestmark = pytest.mark.django_db
ROWS = {recipe.key: recipe for recipe in load_shipped()}
# Recipe, job, and whether it leaves a joint loose: read from what each does, common practice, no source.
LEAVES = [
    ("steering-arm-rework", "Set pressures and load as raced", False),
    ("corner-weighting", "Set pressures and load as raced", False),
    ("steering-arm-rework", "Read the car as it stands, before the work", False),
    ("steering-arm-rework", "Check camber and caster", False),
    ("steering-arm-rework", "Check full lock: angles, clearance, over-centre", False),
    ("pre-event-spanner-check", "Check every fluid and look for leaks", False),
    ("brake-overhaul", "Bed in the pads and set the bias", False),
    ("steering-arm-rework", "Measure bump steer", True),  # its springs are out
    ("seat-mounts-harness", "Check ride height and corner weights", True),  # its bars are unhooked
    ("brake-overhaul", "Torque the wheels by hand", True),
    ("brake-overhaul", "Bleed the brakes and check for leaks", True),
    ("brake-overhaul", "Fit discs, pads and calipers", True),
    ("suspension-arm-replacement", "Torque the bush bolts at ride height", True),
    ("steering-arm-rework", "Paint the arm", True),
]


def half_done(car, recipe, title):
    (row,) = [job for job in ROWS[recipe].jobs if job.title == title]
    job = JobFactory(
        vehicle=car, title=title, rank="safety", systems=list(row.systems), kinds=list(row.kinds),
        measures=list(row.measures), recipe=recipe, state="waiting",
    )  # fmt: skip
    Span.objects.create(job=job, state="in_hand", by=job.made_by, from_at=NOW, until_at=NOW)
    return job


@pytest.mark.parametrize(("recipe", "title", "loose"), LEAVES)
def test_put_down_half_done(cast, recipe, title, loose):
    car = VehicleFactory(garage=cast.garage)
    half_done(car, recipe, title)
    found = verdict_of(car, NOW)
    assert any(reason.severity == Severity.LOOSE for reason in found.reasons) is loose
    assert found.do_not_drive is loose
    assert found.reasons[0].severity in (Severity.LOOSE, Severity.SAFETY)  # and it is never fit


def test_the_same_written_down_by_hand_is_taken_as_loose(cast):
    car = VehicleFactory(garage=cast.garage)
    job = half_done(car, "steering-arm-rework", "Check camber and caster")
    job.recipe = ""
    job.save()
    assert verdict_of(car, NOW).do_not_drive
