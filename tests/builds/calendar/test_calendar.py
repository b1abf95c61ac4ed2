"""Calendars: read back as a phone reads them, moved with the plan, dead once revoked."""

import re
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar

from builds.calendar.models import CalendarFeed, CalendarTold
from garage.models import DayHours, Garage
from tests.builds.plan.plan_kit import evenings, followed, job
from tests.conftest import Browserless, queries
from tests.factories import NOW, EntryFactory, EventFactory, LinkFactory, MembershipFactory, NeedFactory, VehicleFactory
from tests.pages import words


def make(client, of="mine"):
    answer = client.press("/calendar/add/", {"of": of})
    assert answer.status_code == 201
    return re.search(r"/feed/[\w-]+/garage\.ics", answer.content.decode())[0]


def ask(address, **headers):
    return Browserless().get(address, headers=headers)


def read(address):
    answer = ask(address)
    assert answer.status_code == 200
    return Calendar.from_ical(answer.content)


def said(address):
    return {str(event["SUMMARY"]): event for event in read(address).events}


def evening_of(address, day):
    """The evening that begins on a day of UTC."""
    (one,) = [
        event
        for event in read(address).events
        if "garage" in event["SUMMARY"] and event["DTSTART"].dt.date() == date.fromisoformat(day)
    ]
    return one


def move_clock(monkeypatch, at):
    monkeypatch.setattr("garage.clock.now", lambda: at)


@pytest.fixture
def heron(cast, now):
    evenings(cast.owner, days=[1, 3])
    return VehicleFactory(garage=cast.garage, name="Heron")


class TestWhatItTells:
    def test_an_evening_has_its_hours_and_its_jobs(self, owner, cast, heron):
        job(heron, cast, title="Fit the fan")
        one = evening_of(make(owner), "2027-03-02")
        assert one["SUMMARY"] == "In the garage: Heron"
        assert one["DESCRIPTION"] == "18:00 “Fit the fan”, Heron"
        assert (one["DTSTART"].dt, one["DTEND"].dt) == (NOW + timedelta(hours=1), NOW + timedelta(hours=5))

    def test_an_evening_without_work_is_told_as_well(self, owner, heron):
        one = evening_of(make(owner), "2027-03-04")
        assert (one["SUMMARY"], one["DESCRIPTION"]) == (
            "In the garage",
            "No work is planned for these hours yet.",
        )

    def test_the_garages_tells_who_is_there(self, owner, cast, heron):
        evenings(cast.helper, days=[1], since=20)
        job(heron, cast, title="Fit the fan")
        one = evening_of(make(owner, "whole"), "2027-03-02")
        assert one["SUMMARY"] == "Ines, Tove in the garage: Heron"
        assert re.fullmatch(r"1\d:\d\d “Fit the fan”, Heron \(Ines\)", one["DESCRIPTION"])

    def test_a_persons_own_has_no_evening_of_another(self, helper, cast, heron):
        job(heron, cast, title="Fit the fan")
        assert not [event for event in read(make(helper)).events if "garage" in event["SUMMARY"]]

    def test_cures_parts_and_events(self, owner, cast, heron):
        done = job(heron, cast, title="Paint the arm", state="done", finished_at=NOW)
        LinkFactory(before=done, after=job(heron, cast, title="Refit the arm"), wait_minutes=90)
        fan = job(heron, cast, title="Fit the fan")
        NeedFactory(job=fan, what="fan, 12 in; slim", quantity=2, expected_on=date(2027, 3, 8))
        event = EventFactory(garage=cast.garage, name="Saltmarsh", place="The quay")
        EntryFactory(event=event, vehicle=heron)
        found = said(make(owner))
        assert found["Ready: “Paint the arm”, Heron"]["DTSTART"].dt == NOW + timedelta(minutes=90)
        part = found["Part due: 2 × fan, 12 in; slim, Heron"]
        assert part["DTSTART"].dt == date(2027, 3, 8) and "DTEND" not in part
        assert found["Saltmarsh"]["LOCATION"] == "The quay"
        assert found["Saltmarsh"]["DTEND"].dt == event.ends_at
        assert found["Saltmarsh"]["DESCRIPTION"] == "Cars: Heron.\nLeave home by Fri 12 Mar 16:00."

    def test_a_viewer_reads_no_word_of_when_somebody_is_not_at_home(self, viewer, cast, heron):
        job(heron, cast, title="Fit the fan")
        evenings(cast.viewer)
        EventFactory(garage=cast.garage, name="Saltmarsh").people.add(cast.owner)
        assert viewer.press("/calendar/add/", {"of": "mine"}).status_code == 422
        body = ask(make(viewer, "whole")).content.decode()
        assert "Saltmarsh" in body
        for word in ("Ines", "Tove", "in the garage", "Leave", "Fit the fan", "evening"):
            assert word not in body

    def test_whoever_becomes_a_viewer_reads_what_a_viewer_reads(self, helper, cast, heron):
        evenings(cast.helper)
        address = make(helper)
        assert "In the garage" in said(address)
        cast.helper.role = "viewer"
        cast.helper.save()
        assert not read(address).events

    def test_nothing_private_is_told(self, owner, cast, heron):
        cast.owner.person.surname = "Calder"
        cast.owner.person.save()
        need = NeedFactory(job=job(heron, cast, note="key under the mat"), expected_on=date(2027, 3, 8))
        need.cost_minor, need.supplier = 12345, "Secret Supplies"
        need.save()
        EventFactory(garage=cast.garage, note="the alarm is 4711")
        body = ask(make(owner, "whole")).content.decode()
        for secret in ("Calder", "@example.org", "123", "Secret", "4711", "mat"):
            assert secret not in body.replace("\r\n ", "")

    def test_another_garages_is_not_in_it(self, stranger, cast, heron):
        job(heron, cast, title="Fit the fan")
        assert not read(make(stranger, "whole")).events


class TestAsAPhoneReadsIt:
    def test_lines_are_folded_and_text_is_escaped(self, owner, cast, heron):
        title = "Lüfter, groß; mit Rahmen\\Halter und noch viel mehr Wörtern, damit es lang wird ✓"
        job(heron, cast, title=title)
        raw = ask(make(owner)).content
        lines = raw.split(b"\r\n")
        assert max(map(len, lines)) <= 75 and b"\n" not in b"".join(lines)
        assert all(line.decode() is not None for line in lines)  # no letter is torn in two
        assert b"\\," in raw and b"\\;" in raw and b"\\\\" in raw
        assert title in said_description(raw)

    def test_what_every_calendar_must_have(self, owner, cast, heron):
        answer = ask(make(owner))
        assert answer["Content-Type"] == "text/calendar; charset=utf-8"
        calendar = Calendar.from_ical(answer.content)
        assert (calendar["VERSION"], calendar["PRODID"]) == ("2.0", "-//Witness Mark//Garage//EN")
        for event in calendar.events:
            assert event["UID"] and event["DTSTAMP"] and event["DTSTART"]
            assert event["DTSTAMP"].dt == event["LAST-MODIFIED"].dt
        assert len({event["UID"] for event in calendar.events}) == len(calendar.events)

    def test_one_with_nothing_in_it_is_still_valid(self, stranger, now):
        calendar = read(make(stranger))
        assert not calendar.events
        assert calendar.subcomponents  # RFC 5545, 3.6: at least one component

    @pytest.mark.parametrize(
        ("monday", "before", "after"),
        [(datetime(2027, 3, 22, 12, tzinfo=UTC), 1, 2), (datetime(2027, 10, 25, 12, tzinfo=UTC), 2, 1)],
    )
    def test_an_evening_stands_at_the_same_hour_of_the_wall_either_side_of_a_clock_change(
        self, owner, cast, monkeypatch, monday, before, after
    ):
        move_clock(monkeypatch, monday)
        Garage.objects.filter(pk=cast.garage.pk).update(time_zone="Europe/Berlin")
        evenings(cast.owner, days=[1])
        starts = [event["DTSTART"].dt for event in read(make(owner)).events]
        zone = ZoneInfo("Europe/Berlin")
        assert {moment.astimezone(zone).strftime("%a %H:%M") for moment in starts} == {"Tue 18:00"}
        assert [18 - moment.hour for moment in starts[:2]] == [before, after]

    def test_a_night_across_the_change_is_as_long_as_it_is(self, owner, cast, monkeypatch):
        """Europe leaves summer time on 31 October 2027 at 3:00 (01:00 UTC): the hour from 2:00 comes twice."""
        move_clock(monkeypatch, datetime(2027, 10, 30, 12, tzinfo=UTC))
        Garage.objects.filter(pk=cast.garage.pk).update(time_zone="Europe/Berlin")
        for day, since, until in ((5, 22, 24), (6, 0, 4)):
            evenings(cast.owner, [day], since, until)
        one = evening_of(make(owner), "2027-10-30")
        assert one["DTEND"].dt - one["DTSTART"].dt == timedelta(hours=7)

    def test_the_zone_tells_its_changes(self, owner, cast, now):
        """In Europe on the last Sundays of March and October at 01:00 UTC (Directive 2000/84/EC, articles 2 and 3)."""
        Garage.objects.filter(pk=cast.garage.pk).update(time_zone="Europe/Berlin")
        (zone,) = read(make(owner)).walk("VTIMEZONE")
        told = {(part.name, str(part["DTSTART"].dt)) for part in zone.subcomponents}
        assert zone["TZID"] == "Europe/Berlin"
        assert {("DAYLIGHT", "2027-03-28 02:00:00"), ("STANDARD", "2027-10-31 03:00:00")} <= told


def said_description(raw):
    return " ".join(str(event.get("DESCRIPTION", "")) for event in Calendar.from_ical(raw).events)


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
        assert "last asked for Tue 2 Mar 17:00" in mine and "The whole garage" not in mine
        all_of_them = words(owner.get("/calendar/").content.decode())
        assert "Evenings of Tove" in all_of_them and "not asked for yet" in all_of_them

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
