"""The search for a better plan: one at a time, seen, stopped, swept, and never in the way."""

from contextlib import suppress
from dataclasses import replace
from datetime import timedelta

import pytest
from django.db import transaction
from django_tasks_db.models import DBTaskResult, get_date_max

from builds.plan import tasks
from builds.plan.actions import plans, searches
from builds.plan.actions.follow import make_plan
from builds.plan.actions.plans import LAST_DAYS, ODDS
from builds.plan.facts.stored import shown
from builds.plan.models import Plan, Search
from builds.plan.pages.search import gain_words, score_words, search_view
from builds.planner.check import score
from builds.planner.plan import Progress
from garage import writes
from garage.actions.refused import Refused
from garage.models import Garage
from tests.builds.plan.plan_kit import evenings, planned, starts
from tests.factories import NOW, JobFactory, VehicleFactory

pytestmark = pytest.mark.django_db
SECOND = timedelta(seconds=1)


def later():
    return NOW + 5 * SECOND


@pytest.fixture
def base(cast):
    """A plan on the wall that wastes an evening: the first pass does better."""
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, made_by=cast.owner, title="Fit the fan")
    best = planned(cast.garage)
    row = replace(best.answer.placed[0], start=4 + 96, end=8 + 96)
    wasted = replace(best.answer, placed=(row,))
    wasted = replace(wasted, score=score(best.problem, wasted))
    return plans.put_up(cast.garage, plans.PlanningCase.of(best), wasted, before=best, at=NOW)


def begin(cast, seconds=5):
    return searches.start(cast.garage, by=cast.owner, at=NOW, seconds=seconds, now=later)


def test_a_better_plan_goes_on_the_wall(cast, base, django_capture_on_commit_callbacks):
    with django_capture_on_commit_callbacks(execute=True):
        search = begin(cast)
    search.refresh_from_db()
    assert (search.ended_at, search.failed) == (later(), "")
    wall = shown(cast.garage)
    assert (wall.row, wall.row.made_by) == (search.plan, cast.owner)
    assert starts(wall)["Fit the fan"][0] == "Tue 18:00"
    view = search_view(search, later())
    assert view.running is False
    assert view.note.endswith("jobs end sooner on the whole.")


def test_one_that_is_no_better_changes_nothing(cast, base, django_capture_on_commit_callbacks):
    best = planned(cast.garage)
    with django_capture_on_commit_callbacks(execute=True):
        search = begin(cast)
    search.refresh_from_db()
    assert shown(cast.garage).row == best.row == search.plan
    assert search_view(search, later()).note.startswith("The search tried ")


def test_a_write_that_changes_nothing_for_the_plan_does_not_overtake_it(cast, base):
    search = begin(cast)
    Garage.objects.update(writes=7)
    searches.run(search.pk, later)
    search.refresh_from_db()
    assert (shown(cast.garage).row, shown(cast.garage).row.writes) == (search.plan, 7)
    assert search.plan != base


def test_something_changed_meanwhile_so_it_is_left_without_a_word(cast, base):
    search = begin(cast)
    JobFactory(vehicle=VehicleFactory(garage=cast.garage), made_by=cast.owner)
    Garage.objects.update(writes=7)
    searches.run(search.pk, later)
    search.refresh_from_db()
    assert (search.ended_at, search.failed, search.plan) == (later(), "", None)
    assert len(shown(cast.garage).jobs) == 2


def test_planned_anew_meanwhile_so_it_is_left(cast, base):
    search = begin(cast)
    again = planned(cast.garage, NOW + SECOND)
    searches.run(search.pk, later)
    search.refresh_from_db()
    assert shown(cast.garage).row == again.row
    assert (search.ended_at, search.failed) == (later(), "")


def test_a_plan_put_up_while_it_looked_stays(cast, base, monkeypatch):
    search, answer = begin(cast), searches.answer

    def slow(drawn, **more):
        found = answer(drawn, **more)
        Plan.objects.create(**{**columns_of(base), "made_at": NOW + SECOND})
        return found

    monkeypatch.setattr(searches, "answer", slow)
    searches.run(search.pk, later)
    search.refresh_from_db()
    assert search.ended_at == later()
    assert shown(cast.garage).row not in (base, search.plan)


def columns_of(row):
    return {field.name: getattr(row, field.name) for field in row._meta.concrete_fields if not field.primary_key}


def test_a_second_one_is_refused_while_the_first_runs(cast, base):
    begin(cast)
    with pytest.raises(Refused, match="A search is already running"):
        begin(cast)
    planned(cast.stranger.garage)
    searches.start(cast.stranger.garage, by=cast.stranger, at=NOW, seconds=5, now=later)
    assert Search.objects.running().count() == 2


def test_one_not_heard_of_is_swept_and_another_may_start(cast, base):
    lost = begin(cast)
    searches.sweep(cast.garage, at=NOW + 120 * SECOND)
    lost.refresh_from_db()
    assert search_view(lost, NOW + 120 * SECOND).text == "It waits for its turn."
    assert search_view(lost, NOW + 121 * SECOND).running is False
    searches.Watcher(lost.pk, lambda: NOW + 60 * SECOND).tell(1, (0,))
    searches.sweep(cast.garage, at=NOW + 75 * SECOND)
    lost.refresh_from_db()
    assert lost.ended_at is None
    assert search_view(lost, NOW + 76 * SECOND).running is False
    searches.start(cast.garage, by=cast.owner, at=NOW + 76 * SECOND, seconds=5, now=later)
    lost.refresh_from_db()
    assert lost.failed.startswith("The search stopped answering")
    assert Search.objects.running().count() == 1


def test_a_swept_search_that_comes_back_puts_nothing_on_the_wall(cast, base, monkeypatch):
    search, answer = begin(cast), searches.answer

    def slow(drawn, **more):
        searches.sweep(cast.garage, at=NOW + 60 * SECOND)
        return answer(drawn, **more)

    monkeypatch.setattr(searches, "answer", slow)
    searches.run(search.pk, later)
    search.refresh_from_db()
    assert shown(cast.garage).row == base
    assert search.failed.startswith("The search stopped answering")


def test_progress_is_written_twice_a_second_and_hears_the_stop_button(cast, base):
    search = begin(cast)
    look = searches.Watcher(search.pk, later)
    look.progress(Progress(tries=10, best_score=(0, 0, 0, 0, 90), first_score=(0,), seconds=0.1))
    look.progress(Progress(tries=20, best_score=(0, 0, 0, 0, 80), first_score=(0,), seconds=0.2))
    search.refresh_from_db()
    assert (search.tried, search.seen_at, look.over) == (10, later(), False)
    searches.ask_to_stop(search)
    look.progress(Progress(tries=30, best_score=(0, 0, 0, 0, 70), first_score=(0,), seconds=0.7))
    search.refresh_from_db()
    assert (search.tried, search.best_score[-1], look.over) == (30, 70, True)


def test_one_whose_plan_was_replaced_looks_no_further(cast, base):
    look = searches.Watcher(begin(cast).pk, later)
    look.tell(10, (0,))
    assert look.over is False
    planned(cast.garage)
    look.tell(20, (0,))
    assert look.over is True


def test_a_search_that_breaks_off_says_so(cast, base, monkeypatch, caplog):
    search = begin(cast)
    monkeypatch.setattr(searches, "answer", lambda *args, **more: 1 / 0)
    searches.run(search.pk, later)
    search.refresh_from_db()
    assert search.failed == "The search broke off; the log says why."
    assert "ZeroDivisionError" in caplog.text


@pytest.fixture
def queue(settings):
    """The queue of a garage whose work is done beside the server, and nobody at work on it."""
    settings.PLAN_IN_BACKGROUND = True
    return DBTaskResult.objects


def asked(queue):
    return [(row.task_path, row.args_kwargs["args"], row.run_after) for row in queue.ready()]


def test_one_by_hand_is_for_the_worker_with_its_row_or_not_at_all(cast, base, queue):
    with suppress(ZeroDivisionError), transaction.atomic():
        begin(cast)
        raise ZeroDivisionError
    assert asked(queue) == []
    search = begin(cast)
    assert [(path, args) for path, args, _ in asked(queue)] == [("builds.plan.tasks.search", [search.pk])]
    tasks.search.call(search.pk)
    search.refresh_from_db()
    assert (search.ended_at is not None, shown(cast.garage).row) == (True, search.plan)


def test_a_new_plan_is_searched_after_a_quiet_minute(cast, base, queue, clock, monkeypatch):
    assert searches.SECONDS == 20
    monkeypatch.setattr(searches, "SECONDS", 0.5)  # which a test need not sit through
    row = make_plan(cast.garage, at=NOW)
    rows = queue.filter(status="READY")
    ahead = {task.task_path: (task.args_kwargs["args"], task.run_after) for task in rows}
    at_once = ([row.pk], get_date_max())
    assert ahead == {ODDS: at_once, LAST_DAYS: at_once, searches.WHEN_QUIET: ([row.pk], NOW + 60 * SECOND)}
    writes.count(cast.garage.pk, at=NOW + 30 * SECOND)
    clock.forward(seconds=89)
    tasks.search_when_quiet.call(row.pk)
    assert not Search.objects.exists()
    assert queue.filter(run_after=NOW + 94 * SECOND).count() == 1  # and not before five seconds are over
    clock.forward(seconds=1)
    tasks.search_when_quiet.call(row.pk)
    search = Search.objects.get()
    assert (search.asked_by, search.plan, search.budget_seconds, search.ended_at) == (None, row, 0.5, clock.at)


def test_a_plan_that_is_not_on_the_wall_any_more_is_not_searched(cast, base, queue, clock):
    row = make_plan(cast.garage, at=NOW)
    make_plan(cast.garage, at=NOW + SECOND)
    clock.forward(minutes=5)
    tasks.search_when_quiet.call(row.pk)
    assert not Search.objects.exists()


def test_it_comes_again_while_another_one_runs(cast, base, queue, clock):
    row = make_plan(cast.garage, at=NOW)
    clock.forward(minutes=2)
    Search.objects.create(garage=cast.garage, began_at=clock.at, seen_at=clock.at, budget_seconds=5, tried=9, plan=row)
    tasks.search_when_quiet.call(row.pk)
    assert queue.filter(run_after=clock.at + 5 * SECOND).count() == 1


def test_one_that_was_swept_before_its_turn_is_not_run(cast, base):
    search = begin(cast)
    searches.sweep(cast.garage, at=NOW + 121 * SECOND)
    searches.run(search.pk, later)
    search.refresh_from_db()
    assert search.failed.startswith("The search stopped answering")


def test_scores_in_words():
    assert score_words([0, 0, 0, 0, 500]) == "nothing late"
    assert score_words([4, 0, 2.5, 0, 500]) == "missed events 4, late needed work 2.5"
    assert gain_words([4, 0, 2, 0, 9], [0, 0, 0, 0, 99]) == "missed events 0 instead of 4"
    assert gain_words([0, 0, 0, 0, 99], [0, 0, 0, 0, 99]) == ""
    assert gain_words([0, 0, 0, 0, 99], [0, 0, 0, 0, 91]) == "jobs end sooner on the whole"
