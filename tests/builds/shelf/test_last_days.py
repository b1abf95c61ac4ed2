"""By when parts must be here: the same day on the job, the list, the part, Today, paper and the terminal, and true."""

from datetime import date, timedelta
from io import StringIO

import pytest
from django.core.management import call_command
from django_tasks_db.models import DBTaskResult

from builds.needs.pages.by_day import BEING_FOUND
from builds.plan import tasks
from builds.plan.actions.last_days import find_last_days
from builds.plan.actions.plans import LAST_DAYS
from builds.plan.engine.ids import id_of
from builds.plan.facts.last_days import last_days
from builds.shelf.pages.want_sheet import want_sheet_rows
from builds.today.facts.asked import Asked
from builds.today.pages.card_sheet import card_sheet_rows
from builds.work.models.need import Need
from tests.builds.plan.plan_kit import enter, evenings, followed, job, planned
from tests.conftest import queries
from tests.factories import NOW, LinkFactory, NeedFactory, VehicleFactory
from tests.pages import words
from tests.parts.factories import PartFactory

pytestmark = pytest.mark.usefixtures("now")
THURSDAY, FRIDAY = date(2027, 3, 4), date(2027, 3, 5)


@pytest.fixture
def badger(cast):
    """Leaves Friday at 17:00; Ines is in every evening, so Thursday is the last one."""
    evenings(cast.owner)
    car = VehicleFactory(garage=cast.garage, name="Badger")
    enter(car, NOW + timedelta(days=3))
    return car


@pytest.fixture
def hubs(badger, cast):
    return job(badger, cast, title="Fit front hubs")


def said(client, path):
    return words(client.get(path).content.decode())


def found(plan):
    """The days by job (pk), once the worker has found all that are kept beside a plan, however slow the machine is."""
    while find_last_days(plan.row.pk):
        pass
    return last_days(plan.row.garage).days


def test_the_same_sentence_everywhere(owner, cast, hubs):
    part = PartFactory(garage=cast.garage, name="front hub")
    NeedFactory(job=hubs, part=part, what="front hub")
    by = "must be here by Thu 4 Mar"
    found(planned(cast.garage))
    for path in (f"/jobs/{hubs.pk}/", "/wants/", f"/parts/{part.pk}/", "/", "/pull/"):
        assert by in said(owner, path), path
    out = StringIO()
    call_command("shelf", stdout=out, no_color=True)
    assert "front hub, to find, must be here by Thu 4 Mar: “Fit front hubs” (Badger)" in out.getvalue()
    assert "front hub, 1 piece, must be here by Thu 4 Mar, for “Fit front hubs” (Badger)" in out.getvalue()
    (supplier,) = want_sheet_rows(cast.garage, NOW).suppliers
    assert supplier[1] == (("front hub, 1 piece", "Must be here by Thu 4 Mar. For “Fit front hubs” (Badger)."),)
    (hand,) = card_sheet_rows(cast.garage, NOW, Asked()).hands
    assert [tick.note for tick in hand.cards[0].parts] == ["to find. must be here by Thu 4 Mar"]


def test_the_day_is_true(cast, hubs):
    """Expected on that day the car makes it by the plan; a day later it is late."""
    need = NeedFactory(job=hubs)
    day = found(planned(cast.garage))[hubs.pk]
    assert day == THURSDAY
    for comes, makes_it in ((day, True), (day + timedelta(days=1), False)):
        Need.objects.filter(pk=need.pk).update(expected_on=comes)
        plan = followed(cast.garage)
        asked = id_of("job", hubs.pk)
        assert (plan.placed[asked].end <= plan.jobs[asked].due) is makes_it


def test_what_is_done_after_it_has_to_fit_as_well(cast, badger, hubs):
    """Torque, the lock check and the bedding in take more than one evening: hubs go on before the last.

    A day later the hubs would still fit, and not what follows them.
    """
    torque, check, bed = (
        job(badger, cast, title=title, rank="safety", likely_minutes=minutes, high_minutes=minutes)
        for title, minutes in (("Torque the hubs", 60), ("Check full lock", 60), ("Bed the brakes in", 180))
    )
    for before, after in ((hubs, torque), (torque, check), (check, bed)):
        LinkFactory(before=before, after=after)
    need = NeedFactory(job=hubs)
    day = found(planned(cast.garage))[hubs.pk]
    assert day == THURSDAY - timedelta(days=1)
    for comes, makes_it in ((day, True), (day + timedelta(days=1), False)):
        Need.objects.filter(pk=need.pk).update(expected_on=comes)
        plan = followed(cast.garage)
        ends = {name: (plan.placed[name].end, row.due) for name, row in plan.jobs.items()}
        assert all(end <= due for end, due in ends.values()) is makes_it
        assert (ends[id_of("job", hubs.pk)][0] <= ends[id_of("job", hubs.pk)][1]) is True


def test_what_is_ordered_may_come_until_then_or_comes_too_late(owner, cast, hubs):
    need = NeedFactory(job=hubs, expected_on=THURSDAY)
    found(planned(cast.garage))
    assert "expected Thu 4 Mar may come until Thu 4 Mar" in said(owner, "/wants/")
    owner.press(f"/needs/{need.pk}/", {"what": "front hub", "quantity": 1, "expected_on": "2027-03-05"})
    found(followed(cast.garage))
    assert "comes too late: it must be here by Thu 4 Mar" in said(owner, "/")


def test_the_days_it_takes_are_counted_back(owner, cast, hubs):
    add = {"what": "front hub", "quantity": 1, "lead_days": "1"}
    assert owner.press(f"/jobs/{hubs.pk}/needs/add/", add).status_code == 303
    found(followed(cast.garage))
    assert "order by Wed 3 Mar, here by Thu 4 Mar" in said(owner, f"/jobs/{hubs.pk}/")
    owner.press(f"/needs/{Need.objects.get().pk}/", {**add, "lead_days": "3"})
    found(followed(cast.garage))
    assert "too late to order: it takes 3 days and must be here by Thu 4 Mar" in said(owner, "/")


@pytest.mark.parametrize("days, status", [("365", 303), ("366", 422), ("-1", 422)])
def test_how_long_a_part_may_take(owner, hubs, days, status):
    add = {"what": "front hub", "quantity": 1, "lead_days": days}
    assert owner.press(f"/jobs/{hubs.pk}/needs/add/", add).status_code == status


def test_nothing_is_said_where_the_car_is_late_whatever_comes(owner, cast, badger, hubs):
    NeedFactory(job=hubs)
    job(badger, cast, title="Weld the sill", likely_minutes=13 * 60, high_minutes=13 * 60)
    found(planned(cast.garage))
    assert " here by" not in said(owner, "/wants/") + said(owner, "/")


def test_nor_of_wanted_work_nor_of_a_car_without_an_event_nor_of_what_lies_there(owner, cast, badger):
    NeedFactory(job=job(badger, cast, title="New mud flaps", rank="wanted"))
    NeedFactory(job=job(VehicleFactory(garage=cast.garage, name="Tug"), cast, title="Oil"))
    NeedFactory(job=job(badger, cast, title="Fan"), got_at=NOW)
    found(planned(cast.garage))
    assert " here by" not in said(owner, "/wants/") + said(owner, "/")


def test_a_want_written_after_the_plan_was_made_has_its_day_once_the_worker_found_it(owner, cast, hubs, settings):
    planned(cast.garage)
    NeedFactory(job=hubs)
    settings.PLAN_IN_BACKGROUND = True
    plan = followed(cast.garage)
    assert LAST_DAYS in [task.task_path for task in DBTaskResult.objects.all()]
    for path in ("/", "/wants/"):
        page = said(owner, path)
        assert BEING_FOUND in page and "here by" not in page, path
    tasks.last_days.call(plan.row.pk)
    for path in ("/", "/wants/"):
        page = said(owner, path)
        assert BEING_FOUND not in page and "must be here by Thu 4 Mar" in page, path


def test_what_is_left_has_the_next_turn_and_keeps_what_was_found(cast, badger, hubs, monkeypatch):
    brakes = job(badger, cast, title="Rebuild the calipers")
    for work in (hubs, brakes):
        NeedFactory(job=work)
    plan, over = planned(cast.garage), [False, True]
    monkeypatch.setattr("builds.plan.actions.last_days.out_of_time", lambda seconds: lambda: over.pop(0))
    tasks.last_days.call(plan.row.pk)
    assert [task.task_path for task in DBTaskResult.objects.all()] == [LAST_DAYS]
    assert len(last_days(cast.garage).asked) == 1
    over[:] = [False]
    tasks.last_days.call(plan.row.pk)
    assert last_days(cast.garage).days.keys() == {hubs.pk, brakes.pk}
    assert len(DBTaskResult.objects.all()) == 1


def test_a_new_plan_works_them_out_anew(owner, cast, badger, hubs):
    NeedFactory(job=hubs)
    found(planned(cast.garage))
    job(badger, cast, title="Weld the sill", likely_minutes=8 * 60, high_minutes=9 * 60)
    plan = followed(cast.garage)
    assert plan.row.last_days is None and not find_last_days(0)
    found(plan)
    assert "must be here by Thu 4 Mar" in said(owner, "/wants/")


def test_what_is_ordered_for_another_job_keeps_its_day_where_that_lacks_more(cast, badger, hubs):
    """Four hours on Thursday, for which an arm comes that day: the hubs have to be on before, clip or no clip."""
    arm = job(badger, cast, "Fit the arm", likely_minutes=240, low_minutes=240, high_minutes=240)
    NeedFactory(job=arm, what="arm", expected_on=THURSDAY)
    NeedFactory(job=hubs)
    alone = found(planned(cast.garage))[hubs.pk]
    NeedFactory(job=arm, what="clip", lead_days=1)
    assert found(followed(cast.garage))[hubs.pk] == alone == THURSDAY - timedelta(days=1)


def test_a_plan_from_before_days_were_kept_says_none(owner, cast, hubs):
    plan = planned(cast.garage)
    NeedFactory(job=hubs)
    made_from = {name: kept for name, kept in plan.row.made_from.items() if name != "opens"}
    type(plan.row).objects.filter(pk=plan.row.pk).update(made_from=made_from)
    found(plan)
    page = said(owner, "/wants/")
    assert "here by" not in page and BEING_FOUND not in page


def test_today_has_what_is_to_be_done_soonest_first_and_counts_the_rest(owner, cast, badger):
    for days in (1, None, 9):
        NeedFactory(job=job(badger, cast, title=f"Fit {days}"), lead_days=days)
    for number in range(5):
        NeedFactory(job=job(badger, cast, title=f"Refit {number}", likely_minutes=15, low_minutes=15))
    found(planned(cast.garage))
    parts = owner.get("/").context["view"].to_come
    assert [part.job.title for part in parts.parts[:2]] == ["Fit 9", "Fit 1"]
    assert (len(parts.parts), parts.more) == (6, 2)
    assert "And 2 more: all that is wanted" in said(owner, "/")


def test_many_wants_cost_no_more_queries_than_one(owner, cast, badger, hubs):
    NeedFactory(job=hubs)
    one = queries(owner, "/wants/")
    for number in range(8):
        NeedFactory(job=job(badger, cast, title=f"Refit {number}", likely_minutes=15, low_minutes=15))
    assert queries(owner, "/wants/") == one


def test_the_sheet_is_written(owner, hubs):
    NeedFactory(job=hubs, expected_on=THURSDAY)
    answer = owner.get("/wants/sheet.pdf")
    assert answer.status_code == 200 and answer.content.startswith(b"%PDF")
