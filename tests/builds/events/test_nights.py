"""Repairs overnight at an event of two days: their hours, their place, and the next morning by which cars are ready."""

from datetime import timedelta

import pytest
from django.db import IntegrityError, transaction

from builds.plan.engine.ids import id_of
from builds.plan.facts.outcomes import ready_by
from builds.today.facts.asked import Asked
from builds.today.pages.card_sheet import card_sheet_rows
from builds.work.models.job import Job
from garage.models import Membership, Night
from tests.builds.events.night_kit import HOUR, make_fair
from tests.builds.plan.plan_kit import followed, job
from tests.conftest import queries
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    SkillFactory,
    VehicleFactory,
)
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def fair(cast):
    return make_fair(cast)


def placed(plan, row):
    """When a job is planned, in hours from now; None without a place."""
    spot = plan.placed.get(id_of("job", row.pk))
    return None if spot is None else tuple((plan.clock.moment(slot) - NOW) / HOUR for slot in (spot.start, spot.end))


def why(plan, row):
    return plan.unplaced[id_of("job", row.pk)].why


def said(client, path):
    return words(client.get(path).content.decode())


class TestThePlan:
    def test_found_at_the_event_it_waits_until_the_car_is_back(self, cast, fair):
        """Back at 17:00 tomorrow; nobody works at home on a car that is not there."""
        assert placed(followed(cast.garage), fair.hub) == (25, 26)

    def test_overnight_it_is_done_there_then_and_due_in_the_morning(self, cast, fair):
        fair.overnight()
        plan = followed(cast.garage)
        assert placed(plan, fair.hub) == (1, 2)
        due = plan.jobs[id_of("job", fair.hub.pk)].due
        assert plan.clock.moment(due) == fair.night.due_at

    def test_hands_at_home_do_not_help_there_nor_the_other_way_round(self, cast, fair):
        """Two jobs of an hour each in the paddock go one after the other; Tove at home works meanwhile."""
        fair.overnight()
        fair.overnight(job(fair.heron, cast, title="Brake hose", made_at=NOW - HOUR))
        home = job(VehicleFactory(garage=cast.garage, name="Moth"), cast, title="Fan")
        plan = followed(cast.garage)
        there = sorted(placed(plan, row) for row in Job.objects.filter(night=fair.night))
        assert there == [(1, 2), (2, 3)]
        assert placed(plan, home) == (1, 2)
        names = [plan.people[who] for who in plan.placed[id_of("job", home.pk)].people]
        assert names == ["Tove"]

    def test_two_who_go_do_two_jobs_at_once(self, cast, fair):
        fair.event.people.add(cast.helper)
        fair.overnight()
        fair.overnight(job(fair.heron, cast, title="Brake hose", made_at=NOW - HOUR))
        plan = followed(cast.garage)
        assert [placed(plan, row) for row in Job.objects.filter(night=fair.night)] == [(1, 2), (1, 2)]

    def test_what_is_longer_than_the_night_has_no_place(self, cast, fair):
        Job.objects.filter(pk=fair.hub.pk).update(likely_minutes=240, high_minutes=240)
        fair.overnight()
        assert placed(followed(cast.garage), fair.hub) == (1, 5)
        Job.objects.filter(pk=fair.hub.pk).update(likely_minutes=255, high_minutes=255)
        assert placed(followed(cast.garage), fair.hub) is None

    def test_nobody_who_goes_can_or_enough_of_them(self, cast, fair):
        fair.overnight()
        weld = SkillFactory(garage=cast.garage, slug="weld")
        Job.objects.filter(pk=fair.hub.pk).update(skill=weld)
        cast.helper.skills.add(weld)
        assert why(followed(cast.garage), fair.hub) == (
            "Nobody who goes to Saltmarsh has the skill “weld”: say who goes, or do it at home."
        )
        cast.owner.skills.add(weld)
        assert placed(followed(cast.garage), fair.hub) == (1, 2)
        Job.objects.filter(pk=fair.hub.pk).update(hands=2)
        assert why(followed(cast.garage), fair.hub) == (
            "It needs 2 at once, and one of those who work on this car goes to Saltmarsh: "
            "say who goes, or do it at home."
        )
        fair.event.people.clear()
        assert "nobody who works on this car goes to Saltmarsh" in why(followed(cast.garage), fair.hub)

    def test_who_goes_and_works_on_another_car_alone_is_not_said_to_stay_at_home(self, cast, fair):
        fair.overnight()
        Membership.objects.filter(pk=cast.helper.pk).update(every_car=False)
        fair.event.people.set([cast.helper])
        assert why(followed(cast.garage), fair.hub) == (
            "Nobody who works on this car goes to Saltmarsh: say who goes, or do it at home."
        )

    def test_one_who_can_does_one_job_at_a_time(self, cast, fair):
        weld = SkillFactory(garage=cast.garage, slug="weld")
        cast.owner.skills.add(weld)
        fair.event.people.add(cast.helper)
        rows = [fair.hub, job(fair.heron, cast, title="Bracket", made_at=NOW - HOUR)]
        for row in rows:
            Job.objects.filter(pk=row.pk).update(skill=weld)
            fair.overnight(row)
        plan = followed(cast.garage)
        assert sorted(placed(plan, row) for row in rows) == [(1, 2), (2, 3)]

    def test_once_the_night_is_over_what_is_left_is_done_at_home(self, cast, fair):
        fair.overnight()
        plan = followed(cast.garage, at=fair.night.due_at)
        assert placed(plan, fair.hub) == (25, 26)

    def test_wanted_work_at_home_is_not_planned_while_the_car_will_be_away(self, cast, fair):
        moth = VehicleFactory(garage=cast.garage, name="Moth")
        later = EventFactory(
            garage=cast.garage, name="Kiln Lane", gates_at=NOW + 2 * HOUR, ends_at=NOW + 27 * HOUR, travel_minutes=60
        )
        EntryFactory(event=later, vehicle=moth)
        flaps = job(moth, cast, title="Flaps", rank="wanted", likely_minutes=60)
        assert placed(followed(cast.garage), flaps)[0] >= 28

    def test_a_car_that_should_have_left_with_its_work_undone_is_still_here(self, cast, fair):
        late = job(fair.heron, cast, title="Steering arm", made_at=fair.event.due_at - HOUR)
        assert placed(followed(cast.garage), late) in [(1, 2), (2, 3)]


class TestWhatIsSaid:
    def test_the_car_makes_the_morning(self, owner, cast, fair):
        assert "it should have left" in said(owner, f"/events/{fair.event.pk}/")
        fair.overnight()
        followed(cast.garage)
        for path in (f"/events/{fair.event.pk}/", "/", "/plan/", f"/cars/{fair.heron.pk}/"):
            page = said(owner, path)
            assert "it should have left" not in page, path
            assert "ready Tue 19:00, in time" in page, path

    def test_the_picture_of_its_runs_is_drawn_against_the_morning_too(self, owner, cast, fair):
        fair.overnight()
        followed(cast.garage)
        (car,) = owner.get("/plan/odds/").context["view"].cars
        assert car.outlook.startswith("Makes it") and "too late" not in car.picture.said
        assert "too late" not in owner.get(f"/cars/{fair.heron.pk}/").context["view"].picture.said

    def test_before_it_leaves_what_is_done_overnight_makes_it_no_later(self, owner, cast, fair, monkeypatch):
        before = fair.event.due_at - 20 * HOUR
        monkeypatch.setattr("garage.clock.now", lambda: before)
        job(fair.heron, cast, title="Steering arm", made_at=before - HOUR)
        fair.overnight()
        followed(cast.garage, at=before)
        for path in (f"/events/{fair.event.pk}/", "/", "/plan/", f"/cars/{fair.heron.pk}/"):
            assert "By the plan ready Mon 19:00, in time" in said(owner, path), path
        (car,) = owner.get("/plan/odds/").context["view"].cars
        assert car.outlook.endswith(", with its work overnight.") and "too late" not in car.picture.said
        assert "too late" not in owner.get(f"/cars/{fair.heron.pk}/").context["view"].picture.said

    def test_work_overnight_alone_is_not_called_wanted_before_the_car_leaves(self, owner, cast, fair, monkeypatch):
        before = fair.event.due_at - 20 * HOUR
        monkeypatch.setattr("garage.clock.now", lambda: before)
        fair.overnight()
        followed(cast.garage, at=before)
        for path in (f"/events/{fair.event.pk}/", "/", f"/cars/{fair.heron.pk}/"):
            assert "Only work overnight is planned" in said(owner, path), path

    def test_and_misses_it_where_the_work_is_too_long(self, owner, cast, fair):
        fair.overnight()
        Job.objects.filter(pk=fair.hub.pk).update(likely_minutes=300, high_minutes=300)
        followed(cast.garage)
        assert "Will not make it: one job finds no place in the plan." in said(owner, f"/events/{fair.event.pk}/")

    def test_work_that_should_have_been_done_before_it_left_is_late_whatever_is_done_overnight(self, cast, fair):
        class Job:
            def __init__(self, due):
                self.due = due

        morning = fair.night.due_at
        assert ready_by(fair.entry, [Job(morning)], NOW) == morning
        assert ready_by(fair.entry, [Job(morning), Job(None)], NOW) == fair.event.due_at
        assert ready_by(fair.entry, [], NOW) == fair.event.due_at
        assert ready_by(fair.entry, [Job(morning)], fair.event.due_at - HOUR) == fair.event.due_at

    def test_where_it_stands(self, owner, cast, fair):
        """On the event's page, on Today, in the plan, on the job, on its card, and without signal."""
        page = said(owner, f"/events/{fair.event.pk}/")
        assert "Overnight in the paddock 18:00 to 22:00, cars ready by Wed 08:00" in page
        assert "Jobs that could be done then: 1 Hub bearing, Heron" in page
        fair.overnight()
        followed(cast.garage)
        assert "Hub bearing Heron 18:00 to 19:00" in said(owner, f"/events/{fair.event.pk}/")
        assert "In the paddock at Saltmarsh 18:00 to 22:00, cars ready by Wed 08:00" in said(owner, "/")
        assert "in the paddock, Saltmarsh" in said(owner, "/plan/")
        assert "It is to be done then, in the paddock, by whoever goes." in said(owner, f"/jobs/{fair.hub.pk}/")
        assert (
            "Overnight Tue 2 Mar 18:00 to Tue 2 Mar 22:00, cars ready by Wed 3 Mar 08:00: “Hub bearing” (Heron)."
            in said(owner, f"/paddock/{fair.event.pk}/")
        )
        (hand,) = card_sheet_rows(cast.garage, NOW, Asked(job=fair.hub)).hands
        there = "At: the paddock, Saltmarsh, Tue 2 Mar 18:00 to Tue 2 Mar 22:00, cars ready by Wed 3 Mar 08:00"
        assert any(there in line for line in hand.cards[0].facts)

    def test_nobody_goes(self, owner, fair):
        fair.event.people.clear()
        assert "Nobody who works is written down as going" in said(owner, f"/events/{fair.event.pk}/")

    def test_as_many_queries_for_five_jobs_as_for_one(self, owner, cast, fair):
        fair.overnight()
        few = queries(owner, f"/events/{fair.event.pk}/")
        for number in range(4):
            fair.overnight(job(fair.heron, cast, title=f"Job {number}", made_at=NOW - HOUR))
        assert queries(owner, f"/events/{fair.event.pk}/") == few


class TestWritingItDown:
    FORM = {"from_at": "2027-03-13T18:00", "until_at": "2027-03-13T23:00", "due_at": "2027-03-14T08:30"}

    @pytest.fixture
    def event(self, cast):
        gates = NOW + timedelta(days=11) - 9 * HOUR
        return EventFactory(garage=cast.garage, gates_at=gates, ends_at=gates + 32 * HOUR)

    def test_the_owner_writes_the_hours_down_changes_them_and_takes_them_out(self, owner, helper, event):
        path = f"/events/{event.pk}/"
        assert "Hours for repairs overnight" in said(owner, path)
        assert "Hours for repairs overnight" not in said(helper, path)
        assert owner.press(f"{path}nights/add/", self.FORM).status_code == 303
        night = Night.objects.get()
        assert f"{night.due_at:%d %H:%M}" == "14 08:30"
        owner.press(f"/nights/{night.pk}/", {**self.FORM, "until_at": "2027-03-13T22:00"})
        night.refresh_from_db()
        assert f"{night.until_at:%H:%M}" == "22:00"
        owner.press(f"/nights/{night.pk}/delete/")
        assert not Night.objects.exists()

    def test_an_event_of_one_day_has_no_night(self, owner, cast):
        one = EventFactory(garage=cast.garage, ends_at=NOW + timedelta(days=10, hours=6))
        assert "overnight" not in said(owner, f"/events/{one.pk}/")

    def test_the_usual_hours_are_drawn(self, owner, event):
        form = owner.get(f"/events/{event.pk}/nights/add/").context["form"]
        assert [form[name].value().strftime("%d %H:%M") for name in form.fields] == ["13 18:00", "13 23:00", "14 08:00"]

    @pytest.mark.parametrize(
        "field, typed, sentence",
        [
            ("from_at", "2027-03-13T07:59", "That is before the gates open."),
            ("until_at", "2027-03-13T18:00", "It ends before it begins."),
            ("due_at", "2027-03-13T22:59", "Cars are ready once the work has ended, not before."),
            ("due_at", "2027-03-14T16:01", "The event is over by then."),
        ],
    )
    def test_hours_that_cannot_be(self, owner, event, field, typed, sentence):
        answer = owner.press(f"/events/{event.pk}/nights/add/", {**self.FORM, field: typed})
        assert answer.status_code == 422 and answer.context["form"].errors[field] == [sentence]

    @pytest.mark.parametrize(
        "field, typed",
        [
            ("from_at", "2027-03-13T08:00"),
            ("until_at", "2027-03-13T18:01"),
            ("due_at", "2027-03-13T23:00"),
            ("due_at", "2027-03-14T16:00"),
        ],
    )
    def test_and_those_that_just_can(self, owner, event, field, typed):
        assert owner.press(f"/events/{event.pk}/nights/add/", {**self.FORM, field: typed}).status_code == 303

    @pytest.mark.parametrize("until, due", [(0, 5), (3, 2)])
    def test_the_database_holds_their_order(self, event, until, due):
        hours = {"from_at": NOW, "until_at": NOW + until * HOUR, "due_at": NOW + due * HOUR}
        with pytest.raises(IntegrityError), transaction.atomic():
            Night.objects.create(event=event, **hours)

    def test_an_event_is_not_moved_off_its_night(self, owner, fair):
        sent = {
            "name": "Saltmarsh", "gates_at": "2027-03-02T08:00", "ends_at": "2027-03-03T16:00", "travel_minutes": "1:00"
        }  # fmt: skip
        path = f"/events/{fair.event.pk}/edit/"
        early = owner.press(path, {**sent, "ends_at": "2027-03-03T07:59"})
        assert early.context["form"].errors["ends_at"] == [
            "A night in its paddock has its morning after that: change the night first."
        ]
        late = owner.press(path, {**sent, "gates_at": "2027-03-02T18:01"})
        assert late.context["form"].errors["gates_at"] == [
            "A night in its paddock begins before that: change the night first."
        ]
        assert owner.press(path, {**sent, "ends_at": "2027-03-03T08:00"}).status_code == 303
