"""A list that was ticked to its end, and of which more is asked since."""

from datetime import timedelta

import pytest

from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.verdict.facts.verdict import verdict_of
from tests.builds.verdict.moth_kit import tick_all
from tests.builds.verdict.ways_kit import said
from tests.factories import NOW

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)


def keep(cast, text, own=None, *, shipped=False):
    told = {"name": "Kiln Club", "text": text, "with_shipped": shipped, "own": own}
    return check_lists.keep_organiser(cast.garage, at=NOW, **told)


def made(cast, entry, *, anew=False):
    if anew:
        CheckLog.objects.all().delete()
        CheckItem.objects.all().delete()
    check_lists.make(entry, by=cast.owner, at=NOW)
    tick_all(cast, NOW)


@pytest.fixture
def own(cast, entry):
    own = keep(cast, "Numbers on both doors\nBrakes")
    entry.event.organiser = "kiln club"
    entry.event.save()
    made(cast, entry, anew=True)
    return own


def test_lines_that_the_organiser_adds(cast, entry, car, own):
    keep(cast, "BRAKES\nNumbers on both doors\nCatch tank of two litres\nArm restraints", own)
    told = "Not ticked: the list itself. 2 items are asked for that it has not got."
    assert told in said(car, NOW + HOUR)
    made(cast, entry)
    assert verdict_of(car, NOW + HOUR).state == "fit"
    keep(cast, "Brakes", own)
    assert verdict_of(car, NOW + HOUR).state == "fit"  # less is asked: more was looked at


def test_the_general_list_that_he_goes_by_too(cast, entry, car, own):
    keep(cast, own.text, own, shipped=True)
    assert "items are asked for that it has not got." in said(car, NOW + HOUR)


def test_what_the_car_has_got_since(cast, entry, car):
    check_lists.say_has(car, [], by=cast.owner)
    made(cast, entry, anew=True)
    assert verdict_of(car, NOW + HOUR).state == "fit"
    check_lists.say_has(car, ["turbo"], by=cast.helper)
    assert "1 item is asked for that it has not got." in said(car, NOW + HOUR)
    made(cast, entry)
    assert verdict_of(car, NOW + HOUR).state == "fit"


def test_the_list_itself_says_it_and_offers_to_be_brought_up_to_date(owner, cast, entry, own):
    keep(cast, "BRAKES\nNumbers on both doors\nCatch tank of two litres", own)
    body = owner.get(f"/entries/{entry.pk}/checks/").content.decode()
    assert "1 item is asked for that it has not got." in body and body.count("Bring the list up to date") == 1
    made(cast, entry)
    assert "asked for that it has not got" not in owner.get(f"/entries/{entry.pk}/checks/").content.decode()
