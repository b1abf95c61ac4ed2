"""Calendars: read back as a phone reads them, moved with the plan, dead once revoked."""

import re
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from icalendar import Calendar

from garage.models import Garage
from tests.builds.calendar.calendar_kit import ask, evening_of, make, move_clock, read, said
from tests.builds.plan.plan_kit import evenings, job
from tests.factories import NOW, EntryFactory, EventFactory, LinkFactory, NeedFactory, VehicleFactory


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

    def test_ones_own_has_cures_and_parts_of_the_cars_that_one_works_on(self, helper, cast, heron):
        done = job(heron, cast, title="Paint the arm", state="done", finished_at=NOW)
        LinkFactory(before=done, after=job(heron, cast, title="Refit the arm"), wait_minutes=90)
        NeedFactory(job=job(heron, cast, title="Fit the fan"), what="fan", expected_on=date(2027, 3, 8))
        moth = VehicleFactory(garage=cast.garage, name="Moth")
        NeedFactory(job=job(moth, cast, title="Fit the hub"), what="hub", expected_on=date(2027, 3, 9))
        cast.helper.every_car = False
        cast.helper.save()
        cast.helper.cars.add(moth)
        assert {*said(make(helper))} == {"Part due: hub, Moth"}
        assert {"Part due: fan, Heron", "Ready: “Paint the arm”, Heron"} < {*said(make(helper, "whole"))}

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
        for secret in ("Calder", "@example.org", "123.45", "Secret", "the alarm", "mat"):
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
