"""Who is in and what is open, loaded for a stretch of days with few queries."""

from datetime import UTC, date, datetime, timedelta

from garage.facts.presence import member_windows
from garage.models import DayHours
from tests.factories import MemberHoursFactory, MembershipFactory

SINCE = datetime(2027, 3, 26, 12, tzinfo=UTC)  # a Friday; the clock changes on Sunday the 28th
UNTIL = SINCE + timedelta(days=7)


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2027, 3, day, hour, minute, tzinfo=UTC)


def test_the_same_evening_moves_by_an_hour_when_the_clock_changes(cast):
    cast.garage.time_zone = "Europe/Paris"
    for weekday in (4, 0):
        MemberHoursFactory(member=cast.helper, weekday=weekday)
    found = member_windows(cast.garage, SINCE, UNTIL)
    assert found[cast.helper.pk] == [(at(26, 17), at(26, 21)), (at(29, 16), at(29, 20))]
    assert found[cast.owner.pk] == []
    assert cast.stranger.pk not in found


def test_single_days_count_and_only_those_of_the_member(cast):
    for weekday in (4, 5, 6):
        MemberHoursFactory(member=cast.helper, weekday=weekday)
        MemberHoursFactory(member=cast.owner, weekday=weekday)
    DayHours.objects.create(member=cast.helper, day=date(2027, 3, 26), kind="off")
    for kind, since, until in [("instead", 600, 660), ("extra", 660, 720)]:
        DayHours.objects.create(
            member=cast.helper,
            day=date(2027, 3, 27),
            kind=kind,
            from_minute=since,
            until_minute=until,
        )
    found = member_windows(cast.garage, SINCE, UNTIL)
    assert found[cast.helper.pk] == [(at(27, 10), at(27, 12)), (at(28, 18), at(28, 22))]
    assert len(found[cast.owner.pk]) == 3


def test_who_left_or_may_not_sign_in_any_more_is_not_counted(cast):
    cast.helper.left_at = SINCE
    cast.helper.save()
    cast.viewer.person.is_active = False
    cast.viewer.person.save()
    assert set(member_windows(cast.garage, SINCE, UNTIL)) == {cast.owner.pk}


def test_queries_do_not_grow_with_people(cast, django_assert_num_queries):
    for _ in range(5):
        MemberHoursFactory(member=MembershipFactory(garage=cast.garage))
    with django_assert_num_queries(3):
        member_windows(cast.garage, SINCE, UNTIL)
