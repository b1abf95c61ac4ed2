"""Who is in and what is open, loaded for a stretch of days with few queries."""

from datetime import UTC, date, datetime, timedelta

from garage.facts.presence import member_windows
from garage.models import DayHours
from tests.factories import EventFactory, MemberHoursFactory, MembershipFactory

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
    with django_assert_num_queries(6):
        member_windows(cast.garage, SINCE, UNTIL)


def test_who_goes_to_an_event_is_not_in_from_when_the_cars_leave_until_the_way_home_is_over(cast):
    """Leaves 11 to Sunday 21:30; the evening before it leaves is worked, and the one that it cuts into is cut."""
    for weekday in range(7):
        MemberHoursFactory(member=cast.helper, weekday=weekday)
        MemberHoursFactory(member=cast.owner, weekday=weekday)
    event = EventFactory(
        garage=cast.garage, gates_at=at(27, 22), ends_at=at(28, 17), travel_minutes=120, name="Saltmarsh Hill Climb"
    )
    event.people.add(cast.helper)
    found = member_windows(cast.garage, SINCE, at(30, 0))
    assert found[cast.helper.pk] == [
        (at(26, 18), at(26, 22)),
        (at(27, 18), at(27, 20)),
        (at(28, 19), at(28, 22)),
        (at(29, 18), at(29, 22)),
    ]
    assert len(found[cast.owner.pk]) == 4


def test_who_is_still_on_the_way_home_is_not_in(cast):
    MemberHoursFactory(member=cast.helper, weekday=4)
    event = EventFactory(garage=cast.garage, gates_at=at(26, 8), ends_at=at(26, 16), travel_minutes=3 * 60)
    event.people.add(cast.helper)
    assert member_windows(cast.garage, at(26, 17), at(27, 0))[cast.helper.pk] == [(at(26, 19), at(26, 22))]
