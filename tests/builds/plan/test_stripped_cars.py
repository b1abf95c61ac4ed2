"""A stripped car stays where it is, whichever recipes meet on it."""

from datetime import timedelta

import pytest

from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import jobs, links, steps
from garage.models import Skill
from tests.builds.plan.plan_kit import evenings, planned
from tests.factories import NOW, StationFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
RECIPES = {recipe.key: recipe for recipe in load_shipped()}
HOUR = timedelta(hours=1)


@pytest.mark.parametrize("second", ["four-wheel-alignment", "damper-spring-change", "wheels-tyres-spacers"])
@pytest.mark.parametrize("over", [False, True])
def test_nobody_measures_elsewhere_while_the_brakes_are_stripped(cast, second, over):
    car = VehicleFactory(garage=cast.garage, name="Heron", state="driveable")
    strip = recipes.put(RECIPES["brake-overhaul"], car, by=cast.owner, at=NOW - 5 * HOUR)["strip"]
    steps.start(strip, by=cast.owner, at=NOW - 2 * HOUR)
    if over:
        steps.finish(strip, by=cast.owner, at=NOW - HOUR)
    recipes.put_several([RECIPES[second]], car, by=cast.owner, at=NOW)
    for member in (cast.owner, cast.helper):
        evenings(member, since=8)
        member.works = True
        member.save()
        member.skills.set(Skill.objects.filter(garage=cast.garage))
    plan = planned(cast.garage)
    assert plan.problem.facts <= {place.id for place in plan.answer.placed}
    (hold,) = (hold for hold in plan.problem.holds if hold.start in plan.problem.facts)
    stands = {station.id for station in plan.problem.stations if station.stands} - {hold.station}
    wheels_on = plan.placed[hold.until].end if hold.until in plan.placed else plan.problem.slots
    placed = [plan.jobs[job] for job, place in plan.placed.items() if place.start < wheels_on]
    assert [job.title for job in placed if stands & set(job.uses)] == []


def test_a_bench_that_is_ticked_as_a_bay_moves_no_stripped_car_and_its_job_says_why_it_finds_no_place(cast, owner):
    car = VehicleFactory(garage=cast.garage, name="Wren", state="driveable")
    bay = StationFactory(garage=cast.garage, name="Bay", stands=True)
    corner = StationFactory(garage=cast.garage, name="Paint corner")
    evenings(cast.owner)
    told = {"work": (30, 60, 90), "rank": "needed", "systems": ["exhaust"]}
    off, paint, on = (
        jobs.add(car, by=cast.owner, at=NOW - 5 * HOUR, title=title, stations={place: 1}, **told)
        for title, place in (("Arm off", bay), ("Paint the arm", corner), ("Arm on", bay))
    )
    links.add(off, paint)
    links.add(paint, on)
    links.hold_station(bay, off, on)
    steps.start(off, by=cast.owner, at=NOW - 2 * HOUR)
    steps.finish(off, by=cast.owner, at=NOW - HOUR)
    assert not planned(cast.garage).unplaced
    form = {"name": "Paint corner", "capacity": "1", "always_open": "on"}
    assert owner.press(f"/stations/{corner.pk}/", {**form, "stands": "on"}).status_code == 303
    plan = planned(cast.garage)
    said = {plan.jobs[left.id].title: left.why for left in plan.unplaced.values()}
    assert said["Paint the arm"].startswith("It needs Paint corner while its car stands stripped in Bay")
    assert {hold.station for hold in plan.problem.holds} == {f"station-{bay.pk}"}
