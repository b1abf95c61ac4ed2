"""No remedy drops, lowers, shortens or puts off what must be done, and each does what it says."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from builds.planner.check import faults
from builds.planner.search import plan
from builds.remedies.engine.changes.defer import deferrals
from builds.remedies.engine.changes.presence import ExtraSession, Hands
from builds.remedies.engine.changes.room import Room, more_room
from builds.remedies.engine.changes.sooner import Sooner
from builds.remedies.engine.changes.stay_home import StayHome
from builds.remedies.engine.hunt import Hunt
from builds.remedies.engine.proof import proofs
from builds.remedies.engine.standing import missing_cars, standing
from tests.property.planner_problems import problems
from tests.property.tries import tries

CARS = ("heron", "moth")


@st.composite
def offers(draw, problem):
    found = [Room("bay"), StayHome("moth", None, 0.1, 1)]
    begin = draw(st.integers(0, problem.slots - 2))
    end = draw(st.integers(begin + 1, problem.slots))
    found.append(Hands(draw(st.sampled_from((None, "weld"))), begin, end, (end - begin) / 4))
    found += [ExtraSession(row.id, begin, end, (end - begin) / 4) for row in problem.people]
    sooner = tuple(replace(job, earliest=0, windows=None) for job in problem.jobs)
    return [*found, Sooner("part", 1.0, sooner)]


@given(problems(), st.data())
@tries(60)
def test_what_must_be_done_stays_as_it_is_and_the_car_makes_it(problem, data):
    base = plan(problem)
    for car in CARS:
        if standing(problem, base, car).makes_it:
            continue
        changes = [*deferrals(problem, base, car), *more_room(problem, base, car), *data.draw(offers(problem))]
        for remedy in Hunt(problem, base, car, changes).go_on(seconds=10).remedies:
            assert not faults(remedy.problem, remedy.plan)
            assert standing(remedy.problem, remedy.plan, car).makes_it
            assert car not in missing_cars(remedy.problem, remedy.plan)
            after = {job.id: job for job in remedy.problem.jobs}
            assert after.keys() == {job.id for job in problem.jobs}
            for job in problem.jobs:
                now = after[job.id]
                assert (now.rank, now.work, now.hands, now.skill, now.vehicle) == (
                    job.rank,
                    job.work,
                    job.hands,
                    job.skill,
                    job.vehicle,
                )
                if job.rank != "wanted":
                    assert now.earliest <= job.earliest
                if job.vehicle == car:
                    assert now.due == job.due


@given(problems())
@tries(150)
def test_a_car_that_makes_it_in_some_plan_is_not_proved_to_miss_it(problem):
    answer = plan(problem, tries=20)
    for car in CARS:
        if standing(problem, answer, car).makes_it:
            assert not any(proof.impossible for proof in proofs(problem, car))


@given(problems())
@tries(60)
def test_a_shared_proof_holds_when_all_cars_make_it(problem):
    answer = plan(problem, tries=20)
    if not missing_cars(problem, answer):
        assert not any(proofs(problem, car) for car in CARS)
