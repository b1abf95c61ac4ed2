"""The plan for the wall: the sentences of the page, two pages whatever the plan holds, and nothing left out unsaid."""

import re
from datetime import timedelta

import pytest

from builds.paper.pages.plan_sheet import PlanSheet, WallCar, marks_of, plan_sheet_rows
from builds.paper.sheets.plan import plan_sheet
from builds.plan.pages.day_list import Day, PlanLine
from builds.plan.pages.wall import load_plan_page
from garage.models import Vehicle
from garage.sheets.tapes import TAPES
from tests.builds.plan.plan_kit import enter, evenings, job, planned, write
from tests.factories import NOW, JobStationFactory, LinkFactory, NeedFactory, StationFactory, VehicleFactory
from tests.house.places import ROOT
from tests.paper.test_every_sheet import HEAD
from tests.pdf import answered, texts

DAY = timedelta(days=1)


@pytest.fixture
def car(cast, now):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


def test_it_says_of_each_car_what_the_page_says(cast, car, owner):
    job(car, cast, "Fit the fan", likely_minutes=90, high_minutes=90)
    enter(car)
    planned(cast.garage)
    (tag,) = load_plan_page(cast.garage, NOW).cars
    text = " ".join(answered(owner.get("/plan/sheet.pdf")))
    assert f"Heron. {tag.line}. {tag.outlook.sentence}" in text
    assert "18:00–19:30 Ines Fit the fan H" in text
    assert 'href="/plan/sheet.pdf"' in owner.get("/plan/").content.decode()


def test_where_it_is_done_stands_in_the_list_on_paper_and_page(cast, car, owner):
    fan = job(car, cast, "Fit the fan")
    JobStationFactory(job=fan, station=StationFactory(garage=cast.garage, name="Long bench"))
    planned(cast.garage)
    (day,) = plan_sheet_rows(cast.garage, NOW).days
    assert day.lines[0].where == "Long bench"
    assert "<span>Long bench</span>" in owner.get("/plan/").content.decode()


def test_what_must_be_there_is_told_with_the_job_that_wants_it(cast, car):
    fan = job(car, cast, "Fit the fan")
    NeedFactory(job=fan, what="fan blade")
    enter(car)
    planned(cast.garage)
    ((what, said),) = plan_sheet_rows(cast.garage, NOW).wanted
    assert what == "fan blade"
    assert "For “Fit the fan” (Heron)." in said


def test_a_car_without_an_event_that_is_worked_on_has_its_mark(cast, car):
    job(car, cast)
    planned(cast.garage)
    (line,) = plan_sheet_rows(cast.garage, NOW).cars
    assert (line.mark, line.name, line.words) == ("H", "Heron", ("No event ahead.",))


def test_who_may_not_see_when_somebody_is_out_does_not_read_it_here(cast, car, viewer):
    job(car, cast)
    planned(cast.garage)
    rows = plan_sheet_rows(cast.garage, NOW, cast.viewer)
    assert not any(lane.off for lane in rows.strip.lanes)
    assert viewer.get("/plan/sheet.pdf").status_code == 200


def test_that_it_is_an_older_plan_stands_on_it(cast, car, owner):
    first = job(car, cast)
    planned(cast.garage)
    second = job(car, cast, "Paint it")
    for before, after in ((first, second), (second, first)):
        LinkFactory(before=before, after=after)
    write(cast.garage)
    text = " ".join(answered(owner.get("/plan/sheet.pdf")))
    assert "This cannot be planned as it is, and the plan stays as it was." in text


@pytest.mark.parametrize("jobs, days", [(3, 6), (6, 15), (9, 40), (60, 30)])
def test_two_pages_hold_any_plan_and_say_what_is_left_out(jobs, days):
    told = [
        [PlanLine(day * 100 + number, "18:30", "19:30", "1 h", 60, f"Task {day}-{number}", "", "Heron", "green", "Ines")
         for number in range(jobs)] for day in range(days)
    ]  # fmt: skip
    every = tuple(
        Day(f"{NOW + day * DAY:%Y-%m-%d}", "", f"Day {day}", f"{day}", tuple(lines)) for day, lines in enumerate(told)
    )
    wanted = (("hub nut", "Order by Tue 2 Mar."),) * 30
    rows = PlanSheet(HEAD, "Planned.", (), (WallCar("H", "Heron", "green", ("Makes it.",)),), None, every, wanted, ())
    pages = texts(plan_sheet(rows))
    assert len(pages) <= 2
    text = " ".join(pages)
    shown = len(re.findall(r"Task \d", text))
    summed = re.findall(r"(?:the rest of|until)? ?Day \d+: (\d+) jobs?", text, re.IGNORECASE)
    assert shown + sum(map(int, summed)) == jobs * days
    assert "And 22 more, on the list of what is wanted." in text
    # Its first days are told, not only counted.
    assert "Task 0-0" in text


def test_letters_tell_cars_apart_and_numbers_where_they_do_not():
    assert marks_of(["Heron", "badger"]) == ["H", "B"]
    assert marks_of(["Heron", "Hare", "Moth"]) == ["1", "2", "3"]


def test_tapes_have_on_paper_the_colour_that_they_have_by_day():
    css = (ROOT / "static/css/tags.css").read_text()
    seen = dict(re.findall(r"\.tape-(\w+) \{ --tape: (?:light-dark\()?(#\w+)", css))
    assert {
        tape: seen[tape] if len(seen[tape]) == 7 else f"#{seen[tape][1:] * 2}" for tape in Vehicle.Tape.values
    } == TAPES
