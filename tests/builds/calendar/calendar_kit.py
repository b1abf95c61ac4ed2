"""What tests of calendars share: one made, asked for as a phone does, and read back."""

import re
from datetime import date

from icalendar import Calendar

from tests.conftest import Browserless


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
