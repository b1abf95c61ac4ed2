"""Faults, work that nobody described, and what was put off: how the verdict says them."""

from datetime import UTC, datetime

import pytest

from builds.verdict.engine import Facts, JobFact, verdict

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
STEERING = ("steering",)


def job(number: int = 1, **more) -> JobFact:
    return JobFact(**{"id": number, "title": f"Job {number}", "rank": "wanted", "state": "open", **more})


def car(*jobs: JobFact, **more) -> Facts:
    return Facts(**{"vehicle": 9, "at": AT, "standing": "driveable", "jobs": jobs, **more})


@pytest.mark.parametrize(("count", "said"), [(1, "1 safety job is"), (2, "2 safety jobs are")])
def test_safety_work_that_the_owner_put_off_stands_in_the_sentence(count, said):
    jobs = [job(number, systems=STEERING, lowered_because="only cosmetic") for number in range(1, count + 1)]
    found = verdict(car(*jobs))
    assert (found.state, found.reasons) == ("fit", ())
    assert found.sentence == f"Fit to run; {said} still to do, ranked lower by the owner"
    assert len(found.lowered) == count


def test_once_it_is_done_the_sentence_says_nothing_of_it():
    done = job(systems=STEERING, lowered_because="only cosmetic", state="signed")
    assert verdict(car(done)).sentence == "Fit to run"


@pytest.mark.parametrize(
    ("rank", "fault", "stops"),
    [("safety", True, True), ("safety", False, False), ("needed", True, False), ("wanted", True, False)],
)
def test_a_fault_that_could_hurt_somebody_stops_the_car_before_anybody_works_on_it(rank, fault, stops):
    found = verdict(car(job(rank=rank, fault=fault)))
    assert found.do_not_drive is stops
    assert found.state == ("fit" if rank == "wanted" else "not_fit")


def test_a_fault_that_was_lowered_with_a_reason_stops_nothing():
    lowered = {"rank": "needed", "systems": STEERING, "lowered_because": "it is a spare rod on the bench"}
    assert not verdict(car(job(fault=True, **lowered))).do_not_drive
    assert verdict(car(job(fault=True, **{**lowered, "lowered_because": ""}))).do_not_drive


@pytest.mark.parametrize(
    ("more", "state"),
    [
        *(({"state": "in_hand"}, "not_known"), ({"state": "waiting", "worked": True}, "not_known")),
        *(({"state": "dropped", "worked": True}, "not_known"), ({"state": "open"}, "not_known")),
        *(({"state": "done"}, "fit"), ({"state": "open", "unsaid": False}, "fit")),
        *(({"state": "in_hand", "unsaid": False}, "fit"), ({"state": "in_hand", "rank": "needed"}, "not_fit")),
    ],
)
def test_work_of_which_nobody_says_what_it_touches_leaves_the_car_not_known(more, state):
    found = verdict(car(job(**{"unsaid": True, **more})))
    assert found.state == state
    assert len(found.reasons) == (state != "fit")


def test_of_equally_bad_ones_what_stops_and_turns_the_car_comes_first_and_what_holds_the_driver_last():
    faults = {
        "window net loose": ("restraint",),
        "fuel smell": ("fuel",),
        "throttle sticks": ("engine",),
        "tyre worn": ("wheels",),
        "track rod bent": STEERING,
        "pedal soft": ("brakes",),
    }
    jobs = [
        job(number, title=title, systems=systems, rank="safety", fault=True)
        for number, (title, systems) in enumerate(faults.items())
    ]
    planned = job(9, title="New rotors", systems=("brakes",), rank="safety")
    named = [reason.sentence.split("“")[1].rstrip("”") for reason in verdict(car(planned, *jobs)).reasons]
    assert named == [
        *("pedal soft", "track rod bent", "throttle sticks", "fuel smell", "tyre worn", "window net loose"),
        "New rotors",
    ]
