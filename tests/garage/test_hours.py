"""Hours: the week, days that differ, until when tonight; one's own, or by the owner."""

import re
from datetime import date

import pytest

from garage.engine.hours import HoursError, parse_end, parse_stretch
from garage.facts.presence import stretches_on
from garage.models import DayHours
from tests.factories import NOW, MemberHoursFactory
from tests.garage.test_people import text

TODAY = NOW.date()  # a Tuesday, 17:00
ADD = {"day": "2027-03-09", "kind": "extra", "hours": "9:00-12:00"}


@pytest.fixture
def tove(cast, now):
    MemberHoursFactory(member=cast.helper, weekday=1)  # 18:00-22:00
    return cast.helper


def on(member, day=date(2027, 3, 9)):
    return stretches_on(member, day)


def test_a_week_is_kept_as_written(helper, tove):
    path = f"/people/{tove.pk}/hours/"
    assert 'value="18:00-22:00"' in helper.get(path).content.decode()
    answer = helper.press(path, {"mon": "18.30 to 20, 20:30–24:00", "sat": "9-17"})
    assert (answer.status_code, answer["Location"]) == (303, f"/people/{tove.pk}/")
    assert [row.stretch for row in tove.weekly_hours.all()] == [
        (0, 1110, 1200),
        (0, 1230, 1440),
        (5, 540, 1020),
    ]


@pytest.mark.parametrize(
    ("typed", "since", "until"),
    [
        ("1830-2200", 1110, 1320),
        ("930-1230", 570, 750),
        ("6:30pm-10pm", 1110, 1320),
        ("6:30 PM to 10 PM", 1110, 1320),
        ("6:30-10pm", 1110, 1320),
        ("11-2pm", 660, 840),
        ("9-12pm", 540, 720),
        ("12am-12pm", 0, 720),
        ("8pm-12am", 1200, 1440),
    ],
)
def test_hours_are_read_as_people_write_them(typed, since, until):
    assert parse_stretch(typed) == (since, until)


@pytest.mark.parametrize("typed", ["13pm-14pm", "0am-2am", "18300-2200", "6pm10pm", "1860-2200", "10pm-6pm"])
def test_hours_that_nobody_writes_are_refused(typed):
    with pytest.raises(HoursError):
        parse_stretch(typed)


@pytest.mark.parametrize(("typed", "minute"), [("2200", 1320), ("10pm", 1320), ("12am", 1440), ("24:00", 1440)])
def test_an_end_is_read_as_people_write_it(typed, minute):
    assert parse_end(typed) == minute


def test_its_field_takes_what_can_be_read(helper, tove):
    field = re.search(rf'<input id="until-{tove.pk}"[^>]*>', helper.get(f"/people/{tove.pk}/").content.decode())[0]
    assert int(re.search(r'maxlength="(\d+)"', field)[1]) >= len("10:30 pm")


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("18:00-22:00, 21:00-23:00", "Tue 18:00-22:00 and 21:00-23:00 overlap."),
        ("22:00-18:00", "22:00-18:00 runs backwards; past midnight, write two stretches."),
        ("22:00-01:00", "22:00-01:00 runs backwards; past midnight, write two stretches."),
        ("18:00-18:00", "18:00-18:00 runs backwards; past midnight, write two stretches."),
        ("20:00-25:00", "25:00 is not a time of day."),
        ("20:61-22:00", "20:61 is not a time of day."),
        ("evening", "Write hours such as 18:30-22:00, not 'evening'."),
        ("１８:00-22:00", "Write hours such as 18:30-22:00, not '１８:00-22:00'."),
        ("9" * 10_000, "Ensure this value has at most 60 characters (it has 10000)."),
    ],
)
def test_hours_that_cannot_be_are_refused_at_their_day(helper, tove, typed, sentence):
    answer = helper.press(f"/people/{tove.pk}/hours/", {"tue": typed, "wed": "9:00-10:00"})
    assert answer.status_code == 422
    assert answer.context["form"].errors == {"tue": [sentence]}
    assert typed[:60] in answer.content.decode().replace("&#x27;", "'")
    assert [row.stretch for row in tove.weekly_hours.all()] == [(1, 1080, 1320)]


def test_a_day_off_hours_instead_and_extra_sessions(helper, tove):
    path = f"/people/{tove.pk}/days/add/"
    helper.press(path, ADD)
    assert on(tove) == [(540, 720), (1080, 1320)]
    helper.press(path, {**ADD, "hours": "13-14,15-16"})
    assert on(tove) == [(540, 720), (780, 840), (900, 960), (1080, 1320)]
    helper.press(path, {**ADD, "kind": "instead", "hours": "8-9,10-11"})
    assert on(tove) == [(480, 540), (600, 660)]
    helper.press(path, {**ADD, "kind": "off", "hours": "", "note": "Wedding"})
    assert on(tove) == []
    helper.press(path, {**ADD, "hours": "20-21"})
    assert on(tove) == [(1200, 1260)]
    assert "Tue 9 Mar 2027 : only 20:00-21:00 Wedding" in text(helper.get(f"/people/{tove.pk}/"))
    row = DayHours.objects.first()
    assert helper.press(f"/days/{row.pk}/delete/").status_code == 303
    assert on(tove) == [(1080, 1320)]
    assert not DayHours.objects.exists()


@pytest.mark.parametrize(
    ("wrong", "field", "sentence"),
    [
        ({"hours": "21-23"}, "hours", "Tue 18:00-22:00 and 21:00-23:00 overlap."),
        ({"hours": "9-11,10-12"}, "hours", "Tue 9:00-11:00 and 10:00-12:00 overlap."),
        ({"hours": "12-9"}, "hours", "12-9 runs backwards; past midnight, write two stretches."),
        ({"hours": ""}, "hours", "Write the hours, such as 18:30-22:00."),
        ({"kind": "instead", "hours": " "}, "hours", "Write the hours, such as 18:30-22:00."),
        ({"kind": "off"}, "hours", "A day off has no hours: leave this empty."),
        ({"day": "2027-03-01"}, "day", "That day is over: choose today or a later one."),
        ({"day": "0001-01-01"}, "day", "That day is over: choose today or a later one."),
        ({"day": "9999-12-31"}, "day", "That is more than two years away."),
        ({"day": "2027-02-30"}, "day", "Enter a valid date."),
        (
            {"kind": "party"},
            "kind",
            "Select a valid choice. party is not one of the available choices.",
        ),
        ({"note": "x" * 121}, "note", "Ensure this value has at most 120 characters (it has 121)."),
    ],
)
def test_a_day_that_cannot_be_is_refused_at_its_field(helper, tove, wrong, field, sentence):
    answer = helper.press(f"/people/{tove.pk}/days/add/", {**ADD, **wrong})
    assert answer.status_code == 422
    assert answer.context["form"].errors == {field: [sentence]}
    assert not DayHours.objects.exists()


@pytest.mark.parametrize(
    ("week", "until", "then"),
    [
        ([], "22:00", [(1020, 1320)]),
        ([(1080, 1320)], "21", [(1080, 1260)]),
        ([(1080, 1320)], "23:30", [(1080, 1410)]),
        ([(960, 1080), (1140, 1320)], "20:00", [(960, 1200)]),
        ([(540, 600), (1080, 1320)], "24:00", [(540, 600), (1080, 1440)]),
        ([(1140, 1320)], "18:00", [(1020, 1080)]),
    ],
)
def test_in_tonight_until(helper, cast, now, week, until, then):
    for since, end in week:
        MemberHoursFactory(member=cast.helper, weekday=1, from_minute=since, until_minute=end)
    answer = helper.press(f"/people/{cast.helper.pk}/tonight/", {"until": until, "next": "/people/"})
    assert (answer.status_code, answer["Location"]) == (303, "/people/")
    assert on(cast.helper, TODAY) == then
    assert on(cast.helper, date(2027, 3, 9)) == week


def test_tonight_can_be_changed_again_and_home_is_one_tap(helper, tove):
    path = f"/people/{tove.pk}/tonight/"
    helper.press(path, {"until": "21:00"})
    helper.press(path, {"until": "23:00"})
    assert on(tove, TODAY) == [(1080, 1380)]
    assert "in from 18:00 until 23:00" in text(helper.get("/people/"))
    assert "Not in any more today" in text(helper.get(f"/people/{tove.pk}/"))
    helper.press(path, {"out": "1"})
    assert on(tove, TODAY) == []
    assert "Tove you helper not in today" in text(helper.get("/people/"))
    for page in (f"/people/{tove.pk}/", path):
        assert "Not in any more today" not in text(helper.get(page))


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (
            "16:30",
            "It is 17:00 already: write a later time, at most 24:00, and add an extra session"
            " for what comes after midnight.",
        ),
        ("late", "Write a time such as 22:00, not 'late'."),
        ("24:30", "24:30 is not a time of day."),
        ("", "This field is required."),
    ],
)
def test_an_end_that_cannot_be_is_refused(helper, tove, typed, sentence):
    answer = helper.press(f"/people/{tove.pk}/tonight/", {"until": typed})
    assert answer.status_code == 422
    assert answer.context["form"].errors == {"until": [sentence]}
    assert not DayHours.objects.exists()


def test_today_is_the_garages_own_day(helper, tove, cast, clock):
    cast.garage.time_zone = "Pacific/Auckland"
    cast.garage.save()  # there it is Wednesday the 3rd, 06:00
    helper.press(f"/people/{tove.pk}/tonight/", {"until": "8:00"})
    assert on(tove, date(2027, 3, 3)) == [(360, 480)]
    answer = helper.press(f"/people/{tove.pk}/days/add/", {**ADD, "day": "2027-03-02"})
    assert answer.context["form"].errors["day"] == ["That day is over: choose today or a later one."]


@pytest.mark.parametrize(
    ("who", "status"),
    [("owner", 303), ("helper", 303), ("viewer", 403), ("stranger", 404), ("nobody", 302)],
)
def test_ones_own_hours_or_by_the_owner(cast, tove, who, status):
    client = cast.client(who)
    row = DayHours.objects.create(member=tove, day=TODAY, kind="off")
    presses = [("hours/", {"mon": "9-10"}), ("days/add/", ADD), ("tonight/", {"until": "22:00"})]
    for page, data in presses:
        assert client.press(f"/people/{tove.pk}/{page}", data).status_code == status
    row, _ = DayHours.objects.get_or_create(member=tove, day=date(2027, 3, 20), kind="off")
    assert client.press(f"/days/{row.pk}/delete/").status_code == status


def test_a_helper_keeps_nobody_elses(helper, cast, tove):
    answer = helper.press(f"/people/{cast.owner.pk}/hours/", {"mon": "9-10"})
    assert answer.status_code == 403
    assert "Only Ines or the owner can change these hours." in text(answer)
