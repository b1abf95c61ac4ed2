"""What tests of trials share: a session, a trial made, its page in words, what must not move."""

from datetime import timedelta

from builds.cure.models.shop import ShopDay
from builds.plan.facts.stored import shown
from builds.remedies.actions import trials
from builds.remedies.deeds.session import SessionDeed
from garage.models import DayHours, Entry
from tests.builds.plan.plan_kit import text
from tests.factories import NOW
from tests.pages import words

HOUR, DAY = timedelta(hours=1), timedelta(days=1)
TODAY, TOMORROW = NOW.date(), (NOW + DAY).date()
ADD = "/plan/what-if/"


def session(member, since=1080, until=1320, day=TOMORROW):
    return SessionDeed(member.pk, since, until, day)


def tried(cast, *deeds):
    return trials.make(deeds, by=cast.owner, at=NOW)


def page(client, row):
    return words(text(client, f"{ADD}{row.pk}/"))


def snapshot(cast):
    return (
        DayHours.objects.count(),
        ShopDay.objects.count(),
        [(entry.pk, entry.weight) for entry in Entry.objects.all()],
        shown(cast.garage).row.pk,
    )
