"""Who goes to an event: written down by the owner, and then not at home, on every page that says who is in."""

from datetime import date, timedelta

import pytest

from builds.plan.facts.stored import shown
from garage.actions import hours
from garage.actions.refused import Refused
from garage.engine.hours import Stretch
from garage.facts.presence import refuse_meanwhile
from garage.models import Event
from tests.builds.events.test_events import FORM
from tests.builds.plan.plan_kit import evenings, followed, job, starts
from tests.factories import NOW, EventFactory, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
TODAY = NOW.date()


@pytest.fixture
def tonight(cast):
    """An event that began at 16:00 and is over at 21:00, an hour's way: back at 22:00. It is 17:00."""
    for member in (cast.owner, cast.helper):
        evenings(member, since=18, until=23)
    return EventFactory(
        garage=cast.garage,
        name="Saltmarsh Hill Climb",
        gates_at=NOW - timedelta(hours=1),
        ends_at=NOW + timedelta(hours=4),
        travel_minutes=60,
    )


def said(client, path):
    return words(client.get(path).content.decode())


def test_the_owner_says_who_goes(owner, cast):
    owner.press("/events/add/", {**FORM, "people": [cast.helper.pk, cast.viewer.pk]})
    event = Event.objects.get()
    assert set(event.people.all()) == {cast.helper, cast.viewer}
    assert "Who goes Tove, Priya: not at home from Sun 14 Mar 04:30 to Sun 14 Mar 20:30" in said(
        owner, f"/events/{event.pk}/"
    )
    owner.press(f"/events/{event.pk}/edit/", {**FORM, "people": [cast.helper.pk]})
    assert set(event.people.all()) == {cast.helper}
    owner.press(f"/events/{event.pk}/edit/", FORM)
    assert "Who goes nobody yet: all are at home meanwhile" in said(owner, f"/events/{event.pk}/")


def test_nobody_of_another_garage_goes(owner, cast):
    answer = owner.press("/events/add/", {**FORM, "people": [cast.stranger.pk]})
    assert answer.status_code == 422 and "people" in answer.context["form"].errors


def test_the_plan_gives_no_work_at_home_meanwhile(cast, tonight):
    car = VehicleFactory(garage=cast.garage, name="Badger")
    job(car, cast, title="Fit the fan")
    assert starts(followed(cast.garage))["Fit the fan"][0] == "Tue 18:00"
    tonight.people.set([cast.owner])
    assert starts(followed(cast.garage))["Fit the fan"] == ("Tue 18:00", "Tue 19:00", "Tove")
    tonight.people.set([cast.owner, cast.helper])
    assert starts(followed(cast.garage))["Fit the fan"][0] == "Tue 22:00"


def test_today_does_not_say_that_he_is_in_and_gives_him_nothing_to_do(owner, cast, tonight):
    job(VehicleFactory(garage=cast.garage, name="Badger"), cast, title="Fit the fan")
    tonight.people.set([cast.owner])
    followed(cast.garage)
    view = owner.get("/").context["view"]
    ines = next(person for person in view.people if person.name == "Ines")
    assert (ines.tonight, ines.is_in, ines.next, ines.until) == (
        "at Saltmarsh Hill Climb until 22:00",
        False,
        None,
        "",
    )
    assert view.lead == "Tove in from 18:00 until 23:00."
    tonight.people.set([cast.helper])
    assert "Tove (at Saltmarsh Hill Climb until 22:00)" in said(owner, "/")


def test_the_people_pages_say_it(owner, cast, tonight):
    tonight.people.set([cast.helper])
    assert "at Saltmarsh Hill Climb until 22:00" in said(owner, "/people/")
    page = said(owner, f"/people/{cast.helper.pk}/")
    assert "At events Saltmarsh Hill Climb, 15:00 to 22:00" in page
    assert "At events" not in said(owner, f"/people/{cast.owner.pk}/")


class TestHoursMeanwhile:
    def test_nobody_is_in_until_ten_while_he_is_away(self, helper, cast, tonight):
        tonight.people.set([cast.helper])
        answer = helper.press(f"/people/{cast.helper.pk}/tonight/", {"until": "22:30"})
        assert answer.status_code == 422
        assert "Tove is at Saltmarsh Hill Climb then, until Tue 2 Mar 22:00." in words(answer.content.decode())

    @pytest.mark.parametrize(
        "since, until, refused",
        [(22 * 60, 23 * 60, False), (22 * 60 - 1, 23 * 60, True), (14 * 60, 15 * 60, False), (14 * 60, 901, True)],
    )
    def test_a_minute_of_it_is_too_much(self, cast, tonight, since, until, refused):
        tonight.people.set([cast.owner])
        cast.owner.day_hours.all().delete()
        cast.owner.weekly_hours.all().delete()
        extra = {"day": TODAY, "kind": "extra", "stretches": [Stretch(TODAY.weekday(), since, until)]}
        if refused:
            with pytest.raises(Refused, match="Ines is at Saltmarsh Hill Climb then"):
                hours.set_day(cast.owner, **extra)
        else:
            hours.set_day(cast.owner, **extra)

    def test_a_day_off_and_other_days_are_as_ever(self, cast, tonight):
        tonight.people.set([cast.owner])
        hours.set_day(cast.owner, day=TODAY, kind="off", stretches=[])
        assert refuse_meanwhile(cast.owner, date(2027, 3, 3), [(0, 1440)]) is None
        assert refuse_meanwhile(cast.helper, TODAY, [(0, 1440)]) is None


def test_a_changed_list_of_people_is_a_change_of_the_plan(cast, tonight):
    job(VehicleFactory(garage=cast.garage, name="Badger"), cast, title="Fit the fan")
    first = followed(cast.garage)
    tonight.people.set([cast.owner, cast.helper])
    assert followed(cast.garage).row.pk != first.row.pk
    assert shown(cast.garage).placed
