"""One sentence on each car, led by the odds that are kept beside the plan, the same wherever it stands."""

import re
from datetime import timedelta

import pytest
from django_tasks_db.models import DBTaskResult

from builds.plan import tasks
from builds.plan.actions import odds as odds_action
from builds.plan.actions.follow import make_plan
from builds.plan.actions.odds import find_odds
from builds.plan.actions.plans import LAST_DAYS, ODDS
from builds.plan.engine.kept_odds import HELD_KEPT, odds_from, odds_table
from builds.plan.facts.outcomes import outlooks
from builds.plan.facts.stored import shown
from builds.plan.models import Plan
from builds.steps.actions import jobs
from builds.work.models.job import Job
from garage.models import Entry
from tests.builds.plan.plan_kit import enter, evenings, followed, job, outlook_of, planned, said_everywhere, worked
from tests.conftest import queries
from tests.factories import NOW, LinkFactory, SkillFactory, VehicleFactory
from tests.pages import words

pytestmark = [pytest.mark.once, pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR, DAY = timedelta(hours=1), timedelta(days=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron", state="driveable")


def test_every_page_says_the_same_sentence_led_by_the_odds(owner, cast, car):
    job(car, cast, low_minutes=60, likely_minutes=300, high_minutes=900)
    entry = enter(car)
    find_odds(make_plan(cast.garage, at=NOW).pk)
    sentence = outlook_of(owner).sentence
    assert re.fullmatch(
        r"Makes it: in time [\d,]+ times out of 1,000, and 8 times out of 10 ready by Thu \d\d:\d\d "
        r"\(by the plan Wed 19:00\); there is time for .* more work\.",
        sentence,
    )
    for place, said in said_everywhere(owner, entry, cast).items():
        assert sentence in said, place
        assert not re.search("to spare|[Ww]ill make", said), place


def test_until_they_are_found_it_is_what_the_plan_says_without_will(owner, cast, car):
    job(car, cast)
    enter(car)
    planned(cast.garage)
    assert outlook_of(owner).sentence == "By the plan ready Tue 19:00, in time; the odds are being worked out."


def test_a_handful_of_runs_is_no_word_for_a_car(owner, cast, car, monkeypatch):
    job(car, cast)
    enter(car)
    plan = make_plan(cast.garage, at=NOW)
    monkeypatch.setattr(odds_action, "RUNS", 19)
    find_odds(plan.pk)
    assert outlook_of(owner).sentence == "By the plan ready Tue 19:00, in time."
    monkeypatch.setattr(odds_action, "RUNS", 20)
    Plan.objects.filter(pk=plan.pk).update(odds=None)
    find_odds(plan.pk)
    assert outlook_of(owner).sentence.startswith("Makes it: in time 20 times out of 20, ")


def test_late_by_the_plan_says_when_it_leaves(owner, cast, car):
    prime, refit = job(car, cast, "Prime"), job(car, cast, "Refit")
    LinkFactory(before=prime, after=refit, wait_minutes=12 * 60, why="the primer cures")
    enter(car, NOW + DAY)
    planned(cast.garage)
    assert outlook_of(owner).sentence == "By the plan late: ready Wed 19:00, it leaves Wed 17:00."


def test_a_new_plan_has_none_until_the_worker_found_them(owner, cast, car, settings):
    job(car, cast)
    enter(car)
    find_odds(make_plan(cast.garage, at=NOW).pk)
    assert shown(cast.garage).odds is not None
    job(car, cast, "Bleed the brakes")
    settings.PLAN_IN_BACKGROUND = True
    after = followed(cast.garage)
    assert after.odds is None
    assert "the odds are being worked out" in outlook_of(owner).sentence
    tasks.odds.call(after.row.pk)
    assert " out of 1,000, and 8 times out of 10 ready by " in outlook_of(owner).sentence


def test_odds_of_a_plan_that_is_replaced_are_not_worked_out(cast, car, monkeypatch):
    job(car, cast)
    enter(car)
    old = make_plan(cast.garage, at=NOW)
    make_plan(cast.garage, at=NOW + DAY)
    monkeypatch.setattr(odds_action, "simulate", lambda *args, **more: 1 / 0)
    find_odds(old.pk)
    find_odds(0)
    assert not Plan.objects.exclude(odds=None).exists()


def test_a_write_that_leaves_the_plan_alone_has_its_odds_looked_after(cast, car, settings):
    fan = job(car, cast, low_minutes=30, likely_minutes=60, high_minutes=90)
    enter(car)
    row = make_plan(cast.garage, at=NOW)
    find_odds(row.pk)
    was = shown(cast.garage).odds
    fan.high_minutes = 600
    fan.save()
    settings.PLAN_IN_BACKGROUND = True
    assert followed(cast.garage).row == row
    assert [task.task_path for task in DBTaskResult.objects.all()] == [ODDS, LAST_DAYS]
    tasks.odds.call(row.pk)
    now = shown(cast.garage).odds
    assert now.rests_on != was.rests_on and now.odds.vehicles != was.odds.vehicles


def test_a_minute_of_work_in_hand_leaves_the_odds_as_they_are(owner, cast, car, clock, monkeypatch):
    fan = job(car, cast, state="in_hand", low_minutes=60, likely_minutes=120, high_minutes=300)
    worked(fan, NOW - HOUR, None, cast.owner)
    enter(car)
    find_odds(make_plan(cast.garage, at=NOW).pk)
    monkeypatch.setattr(odds_action, "simulate", lambda *args, **more: 1 / 0)
    clock.at = NOW + timedelta(minutes=20)
    assert owner.get("/plan/odds/").context["view"].runs == 1000


def test_kept_odds_come_back_as_they_were(cast, car):
    weld = job(car, cast, "Weld", skill=SkillFactory(garage=cast.garage, slug="weld"))  # never ends
    moth = VehicleFactory(garage=cast.garage, name="Moth")
    job(moth, cast, low_minutes=60, likely_minutes=300, high_minutes=900)
    enter(car)
    enter(moth)
    make_plan(cast.garage, at=NOW)
    kept = odds_action.with_odds(cast.garage).odds
    assert odds_from(odds_table(kept)) == kept
    assert kept.odds.vehicles[f"car-{car.pk}"].moments == (float("inf"),) * 1000
    assert 0 < len(kept.odds.vehicles[f"car-{moth.pk}"].held_by) <= HELD_KEPT
    assert kept.more_work[f"car-{weld.vehicle_id}"] is None


def test_for_a_later_event_the_runs_count_by_when_they_were_ready(owner, cast, car):
    job(car, cast, low_minutes=120, likely_minutes=240, high_minutes=3000)
    first = enter(car, NOW + 5 * HOUR)
    second = enter(car, NOW + 10 * DAY, name="Kiln Lane Autocross")
    find_odds(make_plan(cast.garage, at=NOW).pk)
    soon, later = (words(owner.get(f"/events/{entry.event_id}/").content.decode()) for entry in (first, second))
    assert "Will not make it: in time " in soon
    moments = shown(cast.garage).odds.odds.vehicles[f"car-{car.pk}"].moments
    due = shown(cast.garage).clock.last_until(second.event.due_at)
    assert f"Makes it: in time {sum(moment <= due for moment in moments)} times out of 1,000" in later
    assert "more work" not in later


def test_work_without_a_place_will_not_whatever_the_odds(owner, cast, car):
    job(car, cast, "Weld", skill=SkillFactory(garage=cast.garage, slug="weld"))
    enter(car)
    find_odds(make_plan(cast.garage, at=NOW).pk)
    assert outlook_of(owner).sentence == "Will not make it: one job finds no place in the plan."


def test_what_should_have_been_done_yesterday_is_not_ready_yesterday(cast, car, clock, owner):
    entry = enter(car)
    jobs.add(car, by=cast.owner, at=NOW, title="Fit the fan", work=(30, 60, 90), rank="needed")
    find_odds(make_plan(cast.garage, at=NOW).pk)
    assert "ready by Tue 1" in words(owner.get(f"/events/{entry.event_id}/").content.decode())
    clock.at = NOW + 20 * HOUR
    for path in ("/", "/plan/", f"/events/{entry.event_id}/", f"/cars/{car.pk}/"):
        assert "ready Tue" not in words(owner.get(path).content.decode()), path


def test_a_job_that_came_after_the_plan_softens_no_will_not_of_the_odds(cast, car):
    def said():
        return outlooks(cast.garage, shown(cast.garage), [entry], Job.objects.all(), NOW)[entry.pk].sentence

    job(car, cast, low_minutes=120, likely_minutes=240, high_minutes=3000)
    entry = enter(car, NOW + 5 * HOUR)
    find_odds(make_plan(cast.garage, at=NOW).pk)
    before = said()
    assert before.startswith("Will not make it: in time ")
    job(car, cast, "Bleed the brakes")
    assert said() == before


def test_the_odds_come_with_the_row_of_the_plan(owner, cast, car):
    job(car, cast)
    entry = enter(car)
    row = make_plan(cast.garage, at=NOW)
    paths = ("/", "/plan/", f"/events/{entry.event_id}/", f"/cars/{car.pk}/")
    without = {path: queries(owner, path) for path in paths}
    find_odds(row.pk)
    other = VehicleFactory(garage=cast.garage)
    Entry.objects.create(event=entry.event, vehicle=other)
    assert {path: queries(owner, path) for path in paths} == without
