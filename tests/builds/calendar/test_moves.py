"""What moves stays the same entry; an address works until it is revoked."""

import re
from datetime import date, timedelta

from builds.calendar import actions, views
from builds.calendar.models import CalendarFeed, CalendarTold
from garage.models import DayHours
from tests.builds.calendar.calendar_kit import ask, evening_of, make, move_clock, read
from tests.builds.plan.plan_kit import evenings, followed, job
from tests.conftest import Browserless, queries
from tests.factories import NOW, EntryFactory, EventFactory, MembershipFactory, NeedFactory, VehicleFactory
from tests.pages import words


class TestWhatMoves:
    def test_an_evening_that_moves_to_another_day_stays_the_same_one(self, owner, cast, heron):
        job(heron, cast, title="Fit the fan")
        followed(cast.garage)
        address = make(owner)
        before = evening_of(address, "2027-03-02")
        DayHours.objects.create(member=cast.owner, day=NOW.date(), kind="off")
        DayHours.objects.create(
            member=cast.owner, day=date(2027, 3, 3), kind="extra", from_minute=18 * 60, until_minute=22 * 60
        )
        followed(cast.garage)
        after = evening_of(address, "2027-03-03")
        assert after["UID"] == before["UID"]
        assert (before["SEQUENCE"], after["SEQUENCE"]) == (0, 1)
        assert "Fit the fan" in after["DESCRIPTION"]

    def test_an_evening_that_begins_later_stays_the_same_one(self, owner, cast, heron, monkeypatch):
        address = make(owner)
        before = evening_of(address, "2027-03-04")
        DayHours.objects.create(
            member=cast.owner, day=date(2027, 3, 4), kind="instead", from_minute=19 * 60, until_minute=22 * 60
        )
        move_clock(monkeypatch, NOW + timedelta(hours=1))
        after = evening_of(address, "2027-03-04")
        assert after["UID"] == before["UID"]
        assert after["DTSTART"].dt.hour == 19
        assert (after["SEQUENCE"], after["LAST-MODIFIED"].dt) == (1, NOW + timedelta(hours=1))

    def test_other_work_in_the_same_hours_is_no_new_time(self, owner, cast, heron, monkeypatch):
        address = make(owner)
        before = evening_of(address, "2027-03-02")
        job(heron, cast, title="Fit the fan")
        followed(cast.garage)
        move_clock(monkeypatch, NOW + timedelta(minutes=30))
        after = evening_of(address, "2027-03-02")
        assert "Fit the fan" in after["DESCRIPTION"]
        assert (after["UID"], after["SEQUENCE"]) == (before["UID"], 0)
        assert after["LAST-MODIFIED"].dt == NOW + timedelta(minutes=30)

    def test_what_does_not_change_is_the_same_to_the_byte_and_not_sent_again(self, owner, heron, monkeypatch):
        address = make(owner)
        first = ask(address)
        move_clock(monkeypatch, NOW + timedelta(minutes=45))
        again = ask(address)
        assert again.content == first.content and again["ETag"] == first["ETag"]
        assert "no-cache" in again["Cache-Control"] and "private" in again["Cache-Control"]
        known = ask(address, if_none_match=first["ETag"])
        assert known.status_code == 304 and not known.content

    def test_asked_under_another_name_of_this_garage_nothing_is_changed(
        self, owner, cast, heron, settings, monkeypatch
    ):
        settings.PUBLIC_URL, settings.ALLOWED_HOSTS = "", ["*"]
        job(heron, cast, title="Fit the fan")
        followed(cast.garage)
        address = make(owner)
        before = evening_of(address, "2027-03-02")
        move_clock(monkeypatch, NOW + timedelta(minutes=30))
        again = Browserless().get(address, HTTP_HOST="witness.lan").content.decode()
        assert "http://witness.lan/" in again
        after = evening_of(address, "2027-03-02")
        assert after["LAST-MODIFIED"].dt == before["LAST-MODIFIED"].dt == NOW

    def test_what_changes_has_another_etag(self, owner, cast, heron):
        address = make(owner)
        first = ask(address)
        EventFactory(garage=cast.garage, name="Saltmarsh")
        changed = ask(address, if_none_match=first["ETag"])
        assert changed.status_code == 200 and changed["ETag"] != first["ETag"]

    def test_an_evening_of_yesterday_is_gone_and_one_that_ran_past_midnight_is_not(
        self, owner, cast, heron, monkeypatch
    ):
        for day, since, until in ((1, 22, 24), (2, 0, 2)):
            evenings(cast.helper, [day], since, until)
        address = make(owner, "whole")
        move_clock(monkeypatch, NOW + timedelta(hours=8))
        one = evening_of(address, "2027-03-02")
        assert one["DTEND"].dt - one["DTSTART"].dt == timedelta(hours=8)
        move_clock(monkeypatch, NOW + timedelta(hours=32))
        assert {event["DTSTART"].dt.day for event in read(address).events} & {2, 3} == set()

    def test_an_evening_that_runs_does_not_shrink(self, owner, heron, monkeypatch):
        address = make(owner)
        move_clock(monkeypatch, NOW + timedelta(hours=3))
        assert evening_of(address, "2027-03-02")["DTSTART"].dt == NOW + timedelta(hours=1)


class TestItsAddress:
    def test_it_works_until_it_is_revoked(self, owner, heron, monkeypatch):
        address = make(owner)
        move_clock(monkeypatch, NOW + timedelta(days=400))
        assert ask(address).status_code == 200
        move_clock(monkeypatch, NOW)
        feed = CalendarFeed.objects.get()
        assert owner.press(f"/calendar/{feed.pk}/revoke/").status_code == 303
        gone = ask(address)
        wrong = ask("/feed/" + "x" * 27 + "/garage.ics")
        assert gone.status_code == wrong.status_code == 404
        assert gone.content == wrong.content
        assert not CalendarTold.objects.exists()

    def test_revoked_while_it_is_drawn_it_tells_and_keeps_nothing(self, owner, heron, monkeypatch):
        address, drawn = make(owner), views.calendar_items

        def meanwhile(*given):
            actions.revoke(CalendarFeed.objects.get(), at=NOW)
            return drawn(*given)

        monkeypatch.setattr(views, "calendar_items", meanwhile)
        assert ask(address).status_code == 404
        assert not CalendarTold.objects.exists()

    def test_whoever_leaves_takes_no_calendar_along(self, helper, owner, cast, heron):
        address = make(helper)
        owner.press(f"/people/{cast.helper.pk}/delete/")
        assert ask(address).status_code == 404

    def test_only_a_digest_is_kept_and_no_other_door_takes_it(self, owner, cast, heron):
        token = make(owner).split("/")[2]
        kept = " ".join(str(value) for value in vars(CalendarFeed.objects.get()).values())
        assert token not in kept
        assert ask(f"/shared/{token}/").status_code == ask(f"/enter/{token}/").status_code == 404
        shared = owner.press(f"/share/add/?vehicle={heron.pk}", {"days": "14"}).content.decode()
        assert ask(f"/feed/{re.search(r'/shared/([^/]+)/', shared)[1]}/garage.ics").status_code == 404

    def test_no_log_holds_it(self, owner, heron, caplog):
        caplog.set_level("INFO", "garage.security")
        address = make(owner)
        ask(address)
        assert "calendar made" in caplog.text and address.split("/")[2] not in caplog.text

    def test_guessing_ends_in_silence_for_that_address_alone(self, owner, heron):
        address, guesser = make(owner), Browserless()
        for number in range(40):
            guesser.get(f"/feed/guess{number}/garage.ics")
        assert guesser.get(address).status_code == 404
        assert Browserless(REMOTE_ADDR="198.51.100.7").get(address).status_code == 200

    def test_the_page_says_who_asked_last_and_shows_ones_own(self, owner, helper, cast, heron):
        ask(make(helper))
        make(owner, "whole")
        mine = words(helper.get("/calendar/").content.decode())
        assert "last fetched Tue 2 Mar 17:00" in mine and "The whole garage" not in mine
        all_of_them = words(owner.get("/calendar/").content.decode())
        assert "Evenings of Tove" in all_of_them and "not fetched yet" in all_of_them

    def test_the_made_page_has_a_code_and_something_to_copy(self, owner, heron):
        body = owner.press("/calendar/add/", {"of": "mine"}).content.decode()
        assert 'data-copies="link-out"' in body and "link-out-code" in body

    def test_a_double_tap_makes_one(self, owner, heron):
        data = {"of": "mine", "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12"}
        answers = [owner.post("/calendar/add/", data) for _ in range(2)]
        assert [answer.status_code for answer in answers] == [201, 303]
        assert CalendarFeed.objects.count() == 1

    def test_twelve_and_no_more(self, owner, heron):
        for _ in range(12):
            make(owner)
        refused = owner.press("/calendar/add/", {"of": "mine"})
        assert refused.status_code == 422 and "revoke one" in refused.content.decode()

    def test_five_more_cars_people_and_events_cost_no_query_more(self, owner, cast, heron):
        address = make(owner, "whole")
        NeedFactory(job=job(heron, cast), expected_on=date(2027, 3, 8))
        EntryFactory(event=EventFactory(garage=cast.garage), vehicle=heron)
        followed(cast.garage)
        ask(address)
        one = queries(Browserless(), address)
        for number in range(5):
            evenings(MembershipFactory(garage=cast.garage), days=[number])
            car = VehicleFactory(garage=cast.garage)
            NeedFactory(job=job(car, cast, title=f"Job {number}"), expected_on=date(2027, 3, 8))
            EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)
        followed(cast.garage)
        ask(address)
        assert queries(Browserless(), address) <= one
