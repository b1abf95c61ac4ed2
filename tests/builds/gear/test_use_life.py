"""What wears by use is due after so many runs, hours or months; due before the event is a reason."""

from datetime import date, timedelta

import pytest
from django.db import IntegrityError, transaction

from builds.gear.actions.life import RENEWED, plan_renewal, set_life
from builds.gear.actions.pieces import change_piece
from builds.gear.engine import Lasts, Used, by_use, months_after
from builds.gear.models import UseLife
from builds.readings.engine.kinds_of_work import KINDS
from builds.steps.actions import steps
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job
from builds.work.models.link import Link
from garage.actions.refused import Refused
from garage.engine.systems import SAFETY_SYSTEMS
from tests.builds.gear.gear_kit import gear_reasons, need, piece
from tests.builds.readings.reading_kit import require, take
from tests.conftest import queries
from tests.factories import NOW, EntryFactory, EventFactory, MembershipFactory, VehicleFactory

DAY = timedelta(days=1)
TODAY = date(2027, 3, 2)


@pytest.mark.parametrize(
    ("runs", "ahead", "state"),
    [(0, 0, "good"), (23, 0, "good"), (24, 0, "due"), (18, 6, "good"), (19, 6, "due"), (25, 0, "due")],
)
def test_runs_are_counted_with_those_of_the_event(runs, ahead, state):
    found = by_use(Lasts(runs=24), Used(TODAY, runs, ahead, "Saltmarsh"), TODAY)
    assert found.state == state and found.passes == (state == "good")


@pytest.mark.parametrize(("runs", "state"), [(29, "good"), (30, "due")])
def test_hours_are_runs_at_their_length(runs, state):
    """5 h at 10 min a run are 30 runs."""
    assert by_use(Lasts(minutes=300, run_minutes=10), Used(TODAY, runs), TODAY).state == state


@pytest.mark.parametrize(
    ("day", "state"),
    [(date(2028, 1, 1), "good"), (date(2028, 1, 2), "soon"), (date(2028, 3, 2), "soon"), (date(2028, 3, 3), "due")],
)
def test_months_end_on_their_day_and_are_warned_of_sixty_days_before(day, state):
    assert by_use(Lasts(months=12), Used(TODAY, 0), day).state == state


def test_months_end_on_the_last_day_where_there_is_no_such_one():
    assert months_after(date(2027, 1, 31), 1) == date(2027, 2, 28)
    assert months_after(date(2027, 12, 31), 2) == date(2028, 2, 29)


def test_the_worst_of_all_counts_and_without_any_there_is_none():
    found = by_use(Lasts(runs=24, months=1), Used(TODAY, 3), date(2027, 6, 1))
    assert found.sentence == "Due on 2 April 2027: new on 2 March 2027, for 1 month."
    with pytest.raises(ValueError, match="how long"):
        by_use(Lasts(), Used(TODAY, 0), TODAY)


def test_renewing_is_work_of_a_kind_wherever_it_is_safety():
    for systems, kinds in RENEWED.values():
        assert set(systems) <= SAFETY_SYSTEMS and kinds and set(kinds) <= set(KINDS)


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def oil(car):
    return piece(car, kind="free", name="Engine oil", last=None, meaning="made")


def ran(car, cast, days, runs=4, **more):
    event = EventFactory(
        garage=cast.garage, name=f"{days} days ago", runs=runs,
        gates_at=NOW - days * DAY - DAY / 2, ends_at=NOW - days * DAY,
    )  # fmt: skip
    return EntryFactory(event=event, vehicle=car, **more)


def lasts(gear, **more):
    told = {"runs": None, "minutes": None, "run_minutes": None, "months": None, **more}
    set_life(gear, since=NOW - 100 * DAY, by=MembershipFactory(role="owner"), at=NOW, **told)


@pytest.mark.django_db
def test_runs_come_from_entries_and_one_that_did_not_run_counts_none(cast, car, oil):
    need(cast, car, "free")
    lasts(oil, runs=12)
    ran(car, cast, 200)
    ran(car, cast, 20)
    stayed = ran(car, cast, 10)
    EntryRun.objects.create(entry=stayed, ran=False, at=NOW, by=cast.owner)
    assert gear_reasons(car) == []
    ahead = EntryFactory(
        event__garage=cast.garage, event__name="Saltmarsh", event__gates_at=NOW + DAY, event__runs=9, vehicle=car
    )
    assert gear_reasons(car, ahead) == [
        "Due before the event is over: Engine oil. 4 of 12 runs done, and Saltmarsh has 9 runs more."
    ]
    ahead.event.runs = 8
    ahead.event.save()
    assert gear_reasons(car, ahead) == []


@pytest.mark.django_db
def test_the_job_that_renews_it_makes_it_new_once_it_is_finished(helper, cast, car, oil):
    need(cast, car, "free")
    lasts(oil, runs=4)
    ran(car, cast, 20)
    assert gear_reasons(car) == ["Due before the event is over: Engine oil. 4 of 4 runs done: it is due."]
    answer = helper.press(f"/gear/{oil.pk}/renew/")
    job = Job.objects.get()
    assert answer["Location"] == f"/jobs/{job.pk}/" and (job.title, job.rank) == ("Renew: Engine oil", "needed")
    with pytest.raises(Refused, match="is open already"):
        plan_renewal(oil, by=cast.owner, at=NOW)
    assert gear_reasons(car)
    steps.finish(job, by=cast.owner, at=NOW, kinds=[])
    assert gear_reasons(car) == []


@pytest.mark.django_db
@pytest.mark.parametrize("by_job", [True, False])
def test_what_is_new_since_a_day_to_come_is_not_known(cast, car, oil, by_job):
    need(cast, car, "free")
    since = NOW + 30 * DAY
    if by_job:
        lasts(oil, runs=4)
        steps.finish(plan_renewal(oil, by=cast.owner, at=NOW), by=cast.owner, at=since, kinds=[])
    else:
        set_life(oil, since=since, by=cast.owner, at=since, runs=4)
    assert gear_reasons(car) == ["Not known to be in date: Engine oil. New on 1 April 2027, and that is still to come."]


@pytest.mark.django_db
def test_what_falls_due_before_the_event_is_not_due_since_a_day_to_come(cast, car, oil):
    need(cast, car, "free")
    lasts(oil, months=4)
    ends = NOW + 60 * DAY
    ahead = EntryFactory(vehicle=car, event=EventFactory(garage=cast.garage, gates_at=ends - DAY, ends_at=ends))
    (said,) = gear_reasons(car, ahead)
    assert said.startswith("Due before the event is over: Engine oil. Due on 22 March 2027: new on ")


@pytest.mark.django_db
def test_what_the_renewal_makes_void_is_measured_again_after_it(cast, car):
    require(car, cast.owner, "wheel_torque")
    take(car, "wheel_torque", cast.owner)
    tyres = piece(car, kind="tyres")
    lasts(tyres, runs=4)
    job = plan_renewal(tyres, by=cast.owner, at=NOW)
    (again,) = Job.objects.taking_again()
    assert again.measures == ["wheel_torque"]
    assert Link.objects.filter(before=job, after=again).exists()


@pytest.mark.django_db
def test_belts_are_judged_by_their_label_and_by_use_the_worse_counts(cast, car):
    need(cast, car, "belts")
    belts = piece(car)
    lasts(belts, months=3)
    assert gear_reasons(car)[0].startswith("Due before the event is over: Belts.")
    job = plan_renewal(belts, by=cast.owner, at=NOW)
    assert (job.systems, job.rank, job.kinds) == (["restraint"], "safety", ["seat_or_belt_moved"])
    belts.printed_on = date(2020, 1, 1)
    belts.save()
    assert gear_reasons(car)[0].startswith("Out of date on the day: Belts.")


@pytest.mark.django_db
def test_what_wears_without_a_label_still_wants_one_where_its_standard_has_a_date(cast, car):
    need(cast, car, "belts")
    belts = piece(car, last=None, standard="sfi-16", meaning="made")
    lasts(belts, runs=99)
    assert gear_reasons(car)[0].startswith("Not known to be in date: Belts.")


@pytest.mark.django_db
def test_the_form_keeps_it_refuses_halves_and_takes_it_away(owner, helper, viewer, cast, oil):
    address = f"/gear/{oil.pk}/life/"
    data = {"runs": "24", "hours": "5", "run_minutes": "10", "months": "12", "since": "2027-01-01T10:00"}
    assert viewer.press(address, data).status_code == 403
    assert helper.press(address, data).status_code == 303
    life = UseLife.objects.get()
    assert (life.runs, life.minutes, life.run_minutes, life.months) == (24, 300, 10, 12)
    assert "0 of 24 runs done. 0 min of 5 h done." in helper.get(f"/gear/{oil.pk}/").content.decode()
    assert 'value="24"' in helper.get(address).content.decode()
    for wrong, field in (
        ({"run_minutes": ""}, "run_minutes"),
        ({"hours": ""}, "hours"),
        ({"runs": "0"}, "runs"),
        ({"runs": "1000"}, "runs"),
        ({"months": "361"}, "months"),
        ({"hours": "1000.1"}, "hours"),
        ({"since": "2027-03-02T17:01"}, "since"),
    ):
        answer = helper.press(address, {**data, **wrong})
        assert answer.status_code == 422 and field in answer.context["form"].errors
    gone = {"since": "2027-01-01T10:00"}
    answer = helper.press(address, gone)
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, ["runs"])
    assert owner.press(address, gone).status_code == 303
    assert not UseLife.objects.exists()


@pytest.mark.django_db
def test_what_is_on_no_car_wears_by_no_runs_and_nothing_unsaid_is_renewed(cast, oil, now):
    with pytest.raises(Refused, match="write that down first"):
        plan_renewal(oil, by=cast.owner, at=NOW)
    spare = piece(garage=cast.garage, name="Spare oil", kind="free")
    with pytest.raises(Refused, match="on which car"):
        lasts(spare, runs=4)
    lasts(oil, runs=4)
    oil.vehicle = None
    oil.save()
    with pytest.raises(Refused, match="on which car"):
        plan_renewal(oil, by=cast.owner, at=NOW)
    UseLife.objects.all().delete()
    for wrong in ({"runs": 0}, {}, {"minutes": 60}, {"run_minutes": 60, "runs": 3}):
        with pytest.raises(IntegrityError):
            _refused_by_the_database(oil, wrong)


def _refused_by_the_database(gear, fields):
    with transaction.atomic():
        UseLife.objects.create(gear=gear, since=NOW, **fields)


@pytest.mark.django_db
def test_the_page_takes_the_same_queries_for_one_and_for_many(owner, cast, car, oil):
    lasts(oil, runs=12)
    few = queries(owner, "/gear/")
    for number in range(5):
        lasts(piece(car, kind="free", name=f"Rod end {number}", last=None, meaning="made"), runs=12)
        ran(car, cast, 20 + number)
    assert queries(owner, "/gear/") == few


def ran_once(cast, car, days, runs=4):
    gates = NOW + timedelta(days=days)
    event = EventFactory(garage=cast.garage, gates_at=gates, ends_at=gates + timedelta(hours=8), runs=runs)
    EntryRun.objects.create(entry=EntryFactory(event=event, vehicle=car), at=gates, by=cast.owner)


def test_what_it_has_done_on_one_car_goes_with_it_to_the_next(cast):
    """By way of the shelf, and back; what the first car runs meanwhile is none of it."""
    wasp, moth = (VehicleFactory(garage=cast.garage, name=name) for name in ("Wasp", "Moth"))
    oil = piece(wasp, kind="free", name="Oil", last=None, meaning="made")
    set_life(oil, since=NOW - 90 * DAY, by=cast.owner, at=NOW, runs=10)

    def moved(car, days):
        oil.refresh_from_db()
        change_piece(oil, by=cast.helper, at=NOW - days * DAY, vehicle=car)

    def done(car):
        return [sentence for sentence in gear_reasons(car) if "Oil" in sentence]

    ran_once(cast, wasp, -80)
    moved(None, 70)
    ran_once(cast, wasp, -60)
    moved(moth, 50)
    ran_once(cast, moth, -40)
    assert done(moth) == []
    moved(wasp, 30)
    ran_once(cast, wasp, -20)
    assert done(wasp) == ["Due before the event is over: Oil. 12 of 10 runs done: it is due."]
    assert done(moth) == []
    set_life(oil, since=NOW - 10 * DAY, by=cast.owner, at=NOW, runs=10)
    assert done(wasp) == []


def test_where_it_was_only_written_down_wrong_it_was_on_the_other_car_all_along(cast):
    wasp, moth = (VehicleFactory(garage=cast.garage, name=name) for name in ("Wasp", "Moth"))
    oil = piece(wasp, kind="free", name="Oil", last=None, meaning="made")
    set_life(oil, since=NOW - 90 * DAY, by=cast.owner, at=NOW, runs=4)
    ran_once(cast, wasp, -80)
    change_piece(oil, by=cast.owner, at=NOW, vehicle=moth, all_along=True)
    assert gear_reasons(moth) == []
