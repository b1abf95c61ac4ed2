"""Who does what this evening, and the pull lists of an evening, a person and an event."""

import pytest

from builds.today.facts.asked import Asked
from builds.today.facts.evening import evening_of, night_of, turns_of
from builds.today.pages.pull_list import load_pull_list
from builds.work.facts.work import load_work
from parts.actions import stock
from parts.actions.places import house_place
from tests.builds.plan.plan_kit import enter, evenings, job, planned, worked
from tests.factories import NOW, GarageFactory, LinkFactory, MembershipFactory, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory


@pytest.fixture
def heron(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def titles(cast, **asked):
    work = load_work(cast.garage, NOW)
    return [work.jobs[turn.job].title for turn in turns_of(cast.garage, work, Asked(**asked))]


def test_without_a_plan_what_is_in_hand_and_what_can_be_begun(cast, heron):
    first = job(heron, cast, title="Weld")
    LinkFactory(before=first, after=job(heron, cast, title="Paint"))
    going = job(heron, cast, title="Fan", state="in_hand")
    worked(going, NOW, None, cast.helper)
    assert titles(cast) == ["Fan", "Weld"]
    assert titles(cast, person=cast.owner) == ["Weld"]
    assert titles(cast, person=cast.helper) == ["Fan", "Weld"]


def test_with_a_plan_only_what_it_has_before_the_morning(cast, heron):
    evenings(cast.helper)
    enter(heron)
    long = {"low_minutes": 200, "likely_minutes": 230, "high_minutes": 260}
    LinkFactory(before=job(heron, cast, title="Weld", **long), after=job(heron, cast, title="Paint"))
    planned(cast.garage)
    (turn,) = turns_of(cast.garage, load_work(cast.garage, NOW), Asked())
    assert titles(cast) == ["Weld"]
    assert turn.people == (cast.helper.pk,)
    assert f"{turn.start:%a %H:%M}" == "Tue 18:00"
    assert titles(cast, person=cast.owner) == []


@pytest.mark.parametrize(("at", "ends"), [((1, 59), 2), ((2, 0), 3), ((3, 59), 3), ((4, 0), 3), ((17, 0), 3)])
def test_an_evening_ends_at_four_in_the_morning_for_whoever_is_still_in(cast, at, ends):
    """Ines is in until two: then the morning has begun, and its sheets are those of the evening ahead."""
    garage = GarageFactory(time_zone="Europe/Lisbon")
    evenings(MembershipFactory(garage=garage), since=0, until=2)
    moment = NOW.replace(hour=at[0], minute=at[1])
    assert night_of(garage, moment).isoformat() == f"2027-03-0{ends}T04:00:00+00:00"
    assert evening_of(garage, moment).isoformat() == f"2027-03-0{ends - 1}"


def test_what_is_pulled_for_a_person_and_for_an_event(cast, heron):
    entry = enter(heron)
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    shelf = PlaceFactory(garage=cast.garage, name="Shelf B")
    for car, title, name in [(heron, "Weld", "rod"), (badger, "Fan", "belt")]:
        part = PartFactory(garage=cast.garage, name=name)
        stock.move(part, "receive", 1, house_place(cast.garage, "supplier"), shelf, by=cast.owner, at=NOW)
        row = job(car, cast, title=title, state="in_hand")
        worked(row, NOW, None, cast.helper if car == badger else cast.owner)
        NeedFactory(job=row, part=part, what=name)

    def pulled(**asked):
        view = load_pull_list(cast.garage, NOW, Asked(**asked))
        return [row.part.name for _, rows in view.places for row in rows]

    assert pulled() == ["rod", "belt"]
    assert pulled(person=cast.helper) == ["belt"]
    assert pulled(event=entry.event) == ["rod"]
