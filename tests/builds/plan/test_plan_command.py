"""`manage.py plan` in the terminal: tonight in working order, each entered car, what finds no place."""

from io import StringIO

import pytest
from django.core.management import CommandError, call_command

from builds.plan.actions.plans import Overtaken
from builds.plan.models import Plan
from tests.builds.plan.plan_kit import enter, evenings
from tests.factories import JobFactory, LinkFactory, SkillFactory, VehicleFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


def told(*arguments):
    out = StringIO()
    call_command("plan", *arguments, stdout=out, no_color=True)
    return out.getvalue()


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    prime = JobFactory(vehicle=car, made_by=cast.owner, title="Prime the arm", rank="safety")
    refit = JobFactory(vehicle=car, made_by=cast.owner, title="Refit the arm", rank="safety")
    LinkFactory(before=prime, after=refit, wait_minutes=840, why="the primer cures")
    enter(car)
    return car


def test_tonight_in_working_order_and_each_entered_car(cast, car):
    lines = told("--garage", "Quayside Lock-up").splitlines()
    assert lines[0] == "Quayside Lock-up, Tuesday 17:00"
    assert "Today, Tuesday 2 March" in lines
    assert "    18:00 to 19:00  Prime the arm (Heron) safety, Ines" in lines
    assert "    19:00 ready Wed 09:00  Prime the arm (Heron)" in lines
    assert any(
        line.startswith("  Saltmarsh Hill Climb. Makes it: in time 1,000 times out of 1,000, and ") for line in lines
    )
    assert any(line.startswith("Heron: Not fit to run: ") for line in lines)
    assert Plan.objects.in_garage(cast.garage).shown().count() == 1


def test_what_finds_no_place_and_what_to_do(cast, car):
    weld = SkillFactory(garage=cast.garage, slug="weld")
    JobFactory(vehicle=car, made_by=cast.owner, title="Weld the arm", skill=weld)
    assert (
        "No place: “Weld the arm” (Heron). Nobody has the skill “weld”: teach somebody, or find somebody who has it."
        in told("--garage", "Quayside Lock-up")
    )


def test_every_garage_when_none_is_named(cast, car):
    cast.stranger.garage.name = "Elsewhere"
    cast.stranger.garage.save()
    assert {"Quayside Lock-up, Tuesday 17:00", "Elsewhere, Tuesday 17:00"} <= set(told().splitlines())


def test_the_garages_own_time(cast, car):
    cast.garage.time_zone = "Asia/Tokyo"
    cast.garage.save()
    assert told("--garage", "Quayside Lock-up").splitlines()[0] == "Quayside Lock-up, Wednesday 02:00"


def test_refusals(cast):
    with pytest.raises(CommandError, match="no garage called Nowhere"):
        told("--garage", "Nowhere")
    with pytest.raises(CommandError, match="between 0 and 3600"):
        told("--seconds", "-1")


def test_what_is_written_all_the_time_is_not_planned_in_between(cast, car, monkeypatch):
    def overtaken(garage, **more):
        raise Overtaken

    monkeypatch.setattr("builds.management.commands.plan.make_plan", overtaken)
    with pytest.raises(CommandError, match="Something was written while it was planned"):
        told("--garage", "Quayside Lock-up")
