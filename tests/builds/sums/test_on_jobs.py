"""What was worked out stands where the work is: on the job that is held against it, on its card, on the setup sheet."""

import pytest

from builds.steps.actions import hold_points, jobs, steps
from builds.sums.pages.job_sums import sums_of_jobs
from tests.builds.readings.reading_kit import take
from tests.factories import NOW, VehicleFactory
from tests.pages import words
from tests.pdf import answered

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
LINKAGE = {"kingpins": "1400", "wheelbase": "2550", "arm": "125", "arm_in": "8", "inner": "640", "rack": "100"}
SHORTER = LINKAGE | {"travel": "65", "per_turn": "50", "new_arm": "95"}
CORNERS = {"fl": "312.5", "fr": "298", "rl": "287", "rr": "302.5", "wheelbase": "2575"}
CORNERS |= {"track_front": "1475", "track_rear": "1480"}
MARGIN = "Margin to over centre afterwards, at the worse lock"


@pytest.fixture
def heron(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def lock_check(heron, cast):
    job = jobs.add(
        heron,
        by=cast.owner,
        at=NOW,
        title="Lock check",
        work=(20, 30, 60),
        systems=["steering"],
        measures=["lock_angles", "toggle_check"],
    )
    hold_points.add(job, "Full lock both ways, by hand")
    return job


def shorten(cast, car, clock, title="Shorter arms"):
    clock.forward(minutes=30)
    more = {"title": title, "work": (30, 60, 90), "kinds": ["steering_arm"], "systems": ["steering"]}
    job = jobs.add(car, by=cast.owner, at=clock.at, **more)
    steps.start(job, by=cast.owner, at=clock.at)
    clock.forward(minutes=30)
    steps.finish(job, by=cast.owner, at=clock.at)


def test_a_lock_check_asks_for_what_was_worked_out(owner, cast, heron, lock_check):
    assert MARGIN not in words(owner.get(f"/jobs/{lock_check.pk}/").content.decode())
    owner.press(f"/sums/steering-change/keep/{heron.pk}/", SHORTER)
    body = words(owner.get(f"/jobs/{lock_check.pk}/").content.decode())
    assert f"{MARGIN} 22.4°" in body
    assert "Left lock, inner wheel, afterwards 51.5°" in body
    assert "22° from over centre is little" in body


def test_the_work_that_it_plans_makes_it_true_and_the_next_makes_it_void(owner, cast, heron, lock_check, clock):
    owner.press(f"/sums/steering-change/keep/{heron.pk}/", SHORTER)
    shorten(cast, heron, clock)
    (one,) = sums_of_jobs([lock_check], clock.at)[lock_check.pk]
    assert not one.void
    assert (MARGIN, "22.4°") in one.checks
    assert "“Shorter arms” did it" in words(owner.get(f"/cars/{heron.pk}/sums/").content.decode())
    shorten(cast, heron, clock, "Arms back again")
    (one,) = sums_of_jobs([lock_check], clock.at)[lock_check.pk]
    assert "“Arms back again” was finished" in one.void
    assert not one.checks


def test_work_in_hand_takes_a_sum_from_every_job_but_its_own(owner, cast, heron, lock_check, clock):
    """Whose hands do what was worked out need its figures while they do it."""
    owner.press(f"/sums/corner-weights/keep/{heron.pk}/", CORNERS)
    clock.forward(minutes=30)
    more = {"work": (30, 60, 90), "kinds": ["spring_change"], "systems": ["suspension"]}
    more |= {"measures": ["corner_weights"]}
    own, other = (jobs.add(heron, by=cast.owner, at=clock.at, title=title, **more) for title in ("Front", "Rear"))
    steps.start(own, by=cast.owner, at=clock.at)
    clock.forward(minutes=30)
    here, there = (sums_of_jobs([job], clock.at)[job.pk][0] for job in (own, other))
    assert not here.void
    assert there.void.startswith("Void: “Front” has been in hand since")


def test_a_sum_of_the_car_as_it_stood_is_no_target_of_work_that_takes_it_apart(owner, cast, heron, lock_check):
    owner.press(f"/sums/steering-linkage/keep/{heron.pk}/", LINKAGE | {"travel": "65", "per_turn": "50"})
    more = {"work": (30, 60, 90), "kinds": ["steering_arm"], "systems": ["steering"]}
    apart = jobs.add(heron, by=cast.owner, at=NOW, title="Take the arm off", **more)
    told = sums_of_jobs([lock_check, apart], NOW)
    assert [one.name for one in told[lock_check.pk]] == ["steering-linkage"] and told[apart.pk] == ()


def test_a_sum_of_other_work_is_not_asked_for(owner, heron, lock_check):
    owner.press(f"/sums/fan/keep/{heron.pk}/", {})
    assert sums_of_jobs([lock_check], NOW)[lock_check.pk] == ()


def test_the_job_card_and_the_setup_sheet_carry_it(owner, heron, lock_check):
    owner.press(f"/sums/steering-change/keep/{heron.pk}/", SHORTER)
    card = " ".join(" ".join(answered(owner.get(f"/cards/sheet.pdf?job={lock_check.pk}"))).split())
    assert f"{MARGIN} 22.4°" in card
    setup = " ".join(" ".join(answered(owner.get(f"/cars/{heron.pk}/setup.pdf"))).split())
    assert MARGIN in setup
    assert "22.4°" in setup


PERCH = CORNERS | {"cross": "50", "perch": "fl", "rate_front": "35", "rate_rear": "30", "pitch": "2"}
PERCH |= {"ratio_front": "0.9", "ratio_rear": "0.9"}


def test_weighed_again_the_job_says_how_far_the_perch_is_still_to_go(owner, cast, heron, clock):
    more = {"title": "Weigh it", "work": (30, 60, 90), "kinds": ["spring_change"], "systems": ["suspension"]}
    job = jobs.add(heron, by=cast.owner, at=clock.at, measures=["corner_weights"], **more)
    owner.press(f"/sums/perch-turns/keep/{heron.pk}/", PERCH)
    (first,) = sums_of_jobs([job], clock.at)[job.pk]
    turns = dict(first.checks)["Front left perch, turns, down above 0"]
    clock.forward(minutes=20)
    take(heron, "corner_weights", cast.owner, at=clock.at, amount=300_000)
    clock.forward(minutes=1)
    (now,) = sums_of_jobs([job], clock.at)[job.pk]
    assert "leave it" in dict(now.checks)["Front left perch, turns, down above 0"] and "leave it" not in turns
    assert now.kept.startswith("worked out again from what was read ") and not now.void
    body = words(owner.get(f"/jobs/{job.pk}/").content.decode())
    assert "Cross, after 50 %" in body and "worked out again from what was read" in body


def test_what_was_read_before_the_springs_were_changed_works_nothing_out_again(owner, cast, heron, clock):
    owner.press(f"/sums/perch-turns/keep/{heron.pk}/", PERCH)
    clock.forward(minutes=20)
    take(heron, "corner_weights", cast.owner, at=clock.at, amount=300_000)
    clock.forward(minutes=20)
    more = {"work": (30, 60, 90), "kinds": ["spring_change"], "systems": ["suspension"]}
    springs = jobs.add(heron, by=cast.owner, at=clock.at, title="Softer springs", **more)
    again = jobs.add(heron, by=cast.owner, at=clock.at, title="Weigh it", measures=["corner_weights"], **more)
    for act in (steps.start, steps.finish):
        clock.forward(minutes=20)
        act(springs, by=cast.owner, at=clock.at)
    (one,) = sums_of_jobs([again], clock.at)[again.pk]
    assert "again" not in one.kept
