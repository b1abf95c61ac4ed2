"""What tests of remedies share: the page of a late car, what it offers, and pressing a button."""

import re
from datetime import timedelta

from django.test import TestCase

from builds.plan.facts.outcomes import outcomes
from builds.plan.facts.stored import shown
from tests.builds.plan.plan_kit import enter, evenings, job, planned, text
from tests.factories import NOW, VehicleFactory
from tests.pages import words

HOUR, DAY = timedelta(hours=1), timedelta(days=1)
TODAY, TOMORROW = NOW.date(), (NOW + DAY).date()


def lonely_car(cast):
    """Only Ines works, Tuesday evening; Heron leaves Thursday 17:00."""
    for member in (cast.helper, cast.viewer):
        member.works = False
        member.save()
    evenings(cast.owner, days=[1])
    return VehicleFactory(garage=cast.garage, name="Heron")


def late_entry(cast, car):
    """Six hours of needed work, four hours of Ines: one more evening does it."""
    job(car, cast, "Fit the fan", likely_minutes=360, high_minutes=360)
    entry = enter(car, NOW + 2 * DAY)
    planned(cast.garage)
    return entry


def address(entry, more=""):
    return f"/entries/{entry.pk}/remedies/{more}"


def said_on(client, path):
    return words(text(client, path))


def codes(client, entry):
    return re.findall(r'name="do" value="([^"]+)"', text(client, address(entry, "?whole")))


def card(client, entry, kind):
    """The first thing of a kind that is offered."""
    return next(code for code in codes(client, entry) if code.startswith(kind))


def makes_it(entry):
    """By the plan on the wall."""
    garage = entry.event.garage
    return outcomes(garage, shown(garage), NOW)[entry.pk].in_time


def apply(client, entry, code):
    """Done, and planned anew once that is committed."""
    with TestCase.captureOnCommitCallbacks(execute=True):
        client.press(address(entry, "apply/"), {"do": code})
    return client.get(address(entry))
