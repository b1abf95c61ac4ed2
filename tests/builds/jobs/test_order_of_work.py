"""The order of work between jobs of one car: drawn at once, shown, cut with a reason, not worn away."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.jobs.pages.job import load_page
from builds.readings.actions.order import draw_order, draw_orders
from builds.recipes.actions import putting as recipes
from builds.recipes.engine.parse import load_shipped
from builds.steps.actions import jobs, links, steps
from builds.work.engine.urgency import find_cycle
from builds.work.facts.blocks import blocks_of
from builds.work.facts.waits import following
from builds.work.models.job import Job
from builds.work.models.link import Link, StationHold
from garage.actions.refused import Refused
from tests.factories import NOW, EntryFactory, EventFactory, StationFactory, VehicleFactory

RECIPES = {recipe.key: recipe for recipe in load_shipped()}
pytestmark = pytest.mark.django_db


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.fixture
def add(cast, car):
    def write(title, *, kinds=(), **more):
        return jobs.add(
            car,
            by=cast.owner,
            at=NOW,
            title=title,
            work=(30, 60, 90),
            kinds=list(kinds),
            rank="needed",
            lowered_because="only its order counts here",
            **more,
        )

    return write


def drawn(**asked):
    return set(Link.objects.by_order().standing().filter(**asked).values_list("before__title", "after__title"))


def put(car, key, by):
    return recipes.put(RECIPES[key], car, by=by, at=NOW)


def test_a_job_by_hand_comes_before_the_alignment_of_a_recipe(cast, car, add):
    made = put(car, "four-wheel-alignment", cast.owner)
    arm = add("New arm", kinds=["steering_arm"])
    toe = [job for job in made.values() if "toe_front" in job.measures][-1]
    ahead = {block.sentence for block in blocks_of(toe, NOW)}
    assert Link.objects.by_order().filter(before=arm).exists()
    assert ahead
    steps.drop(arm, by=cast.owner, at=NOW, reason="another way")
    assert not Link.objects.by_order().standing().filter(before=arm).exists()


def test_what_somebody_links_by_hand_stands_against_the_order_of_work(cast, car, add):
    made = put(car, "corner-weighting", cast.owner)
    weighed = [job for job in made.values() if "corner_weights" in job.measures][-1]
    springs = add("Springs", kinds=["spring_change"])
    assert Link.objects.by_order().filter(before=springs).exists()
    links.add(weighed, springs)
    assert not Link.objects.by_order().filter(before=springs, after=weighed).exists()
    assert links.add(springs, add("Later")).by_order is False


def test_a_link_is_cut_with_a_reason_and_stays_cut(cast, car, add, helper):
    made = put(car, "corner-weighting", cast.owner)
    springs = add("Springs", kinds=["spring_change"])
    link = Link.objects.by_order().filter(before=springs).first()
    page = helper.get(f"/jobs/{link.after_id}/").content.decode()
    assert link.why == "finished before the car is measured"
    assert link.why in page and f"/links/{link.pk}/cut/" in page
    with pytest.raises(Refused, match="Say why in words"):
        links.cut(link, because="later", by=cast.helper, at=NOW)
    short = helper.press(f"/links/{link.pk}/cut/", {"because": "later"})
    assert short.context["form"].errors["because"] == ["Say why in words: the next who reads it has to understand it."]
    empty = helper.press(f"/links/{link.pk}/cut/", {"because": ""})
    assert empty.context["form"].errors["because"] == ["Write why: the reason stays with the cut."]
    assert helper.press(f"/links/{link.pk}/cut/", {"because": "weighed twice on purpose"}).status_code == 303
    add("Polish")
    link.refresh_from_db()
    assert link.cut_because == "weighed twice on purpose"
    assert not any("Springs" in block.sentence for block in blocks_of(link.after, NOW))
    view = helper.get(f"/jobs/{link.after_id}/").context["view"]
    assert link.before.title not in [line.title for line in view.waits_for]
    [cut] = view.does_not_wait_for
    assert (cut.title, cut.cut) == ("Springs", "weighed twice on purpose") and str(cast.helper) in cut.cut_by
    [logged] = [line for line in view.log if line.did == "cut the link to “Springs”"]
    assert (logged.note, logged.who) == ("weighed twice on purpose", str(cast.helper))
    assert [line.title for line in helper.get(f"/jobs/{springs.pk}/").context["view"].does_not_wait]
    helper.press(f"/links/{link.pk}/delete/")
    assert Link.objects.by_order().standing().filter(before=springs, after=link.after).exists()
    assert made


def test_what_the_order_drew_is_not_unlinked_and_what_was_written_is_not_cut(cast, car, add):
    put(car, "corner-weighting", cast.owner)
    add("Springs", kinds=["spring_change"])
    with pytest.raises(Refused, match="cut it with a reason"):
        links.remove(Link.objects.by_order().first())
    with pytest.raises(Refused, match="written down by hand"):
        links.cut(Link.objects.by_hand().first(), because="no need", by=cast.owner, at=NOW)


def test_wanted_work_put_off_until_after_the_event_keeps_no_weighing_waiting(cast, car, add):
    made = put(car, "corner-weighting", cast.owner)
    due = EntryFactory(
        vehicle=car, event=EventFactory(garage=cast.garage, gates_at=NOW + timedelta(days=3))
    ).event.due_at
    springs = add("Springs", kinds=["spring_change"])
    weighed = [job for job in made.values() if "corner_weights" in job.measures][-1]
    assert weighed in following(springs)
    Job.objects.filter(pk=springs.pk).update(rank="wanted", earliest_at=due)
    draw_order(car)
    assert weighed not in following(springs)
    Job.objects.filter(pk=springs.pk).update(rank="needed")
    draw_order(car)
    assert weighed in following(springs)


def test_the_order_of_two_cars_closes_no_circle_between_them(cast, car, add):
    other = VehicleFactory(garage=cast.garage, name="Badger")
    here, there = (put(each, "corner-weighting", cast.owner) for each in (car, other))
    weighed, weighed_there = ([job for job in made.values() if job.measures][-1] for made in (here, there))
    springs = add("Springs", kinds=["spring_change"])
    springs_there = jobs.add(
        other, by=cast.owner, at=NOW, title="Its springs", work=(30, 60, 90), kinds=["spring_change"]
    )
    links.add(weighed, springs_there)
    assert weighed_there in following(springs)
    links.add(weighed_there, springs)
    pairs = Link.objects.standing().values_list("before_id", "after_id")
    assert find_cycle(list(pairs)) is None


def test_nobody_measures_while_the_car_is_stripped(cast, car, add):
    first, last = add("Arm off", kinds=["joint_opened"]), add("Arm on", kinds=["joint_opened"])
    links.add(first, last)
    made = put(car, "corner-weighting", cast.owner)
    links.hold_station(StationFactory(garage=cast.garage), first, last)
    weighed = [job for job in made.values() if "corner_weights" in job.measures][-1]
    assert weighed in following(last)
    links.free_station(StationHold.objects.get(first=first, last=last), by=cast.owner, at=NOW)
    links.remove(Link.objects.by_hand().get(before=first, after=last))
    Job.objects.filter(pk=last.pk).update(kinds=[])
    draw_order(car)
    assert weighed not in following(last)


def test_work_that_nobody_said_more_of_comes_before_what_it_may_spoil(cast, car):
    made = put(car, "four-wheel-alignment", cast.owner)
    fields = {
        "by": cast.owner,
        "at": NOW,
        "title": "Change the rear hubs",
        "work": (60, 120, 180),
        "systems": ["wheels"],
    }
    hubs = jobs.add(car, **fields)
    toe = [job for job in made.values() if "toe_front" in job.measures][-1]
    torque = [job for job in made.values() if "wheel_torque" in job.measures][-1]
    assert not hubs.kinds
    ahead = {(link.before_id, link.after_id) for link in Link.objects.in_garage(cast.garage).standing()}
    reached, fresh = set(), {hubs.pk}
    while fresh:
        reached |= fresh
        fresh = {then for first, then in ahead if first in fresh} - reached
    assert {toe.pk, torque.pk} <= reached


@pytest.mark.parametrize("fault", ["Fuel smell in the boot - LOOK!", "Fuel hose drips", "Petrol leak at the filler"])
def test_what_is_wrong_with_the_fuel_is_found_before_any_spark(cast, car, add, fault):
    weld = add("Weld the exhaust bracket", kinds=["hot_work"])
    add(fault, systems=["fuel"])
    assert drawn(after=weld) == {(fault, weld.title)}


def test_new_fuel_lines_go_in_after_the_last_spark_and_a_date_that_is_read_keeps_no_weld_waiting(cast, car, add):
    weld = add("Weld the exhaust bracket", kinds=["hot_work"])
    lines = add("New fuel hoses", kinds=["fuel_line"])
    add("HANS posts, check dates")
    assert drawn(after=lines) == {(weld.title, lines.title)}
    assert not drawn(after=weld)


def test_an_order_that_stands_is_looked_at_and_nobody_waits_for_it(cast, car, add):
    """After every write the plan follows: it takes the lock of all who write only where the order is amiss."""
    put(car, "four-wheel-alignment", cast.owner)
    add("New arm", kinds=["steering_arm"])
    stood = drawn()
    with CaptureQueriesContext(connection) as asked:
        draw_orders(cast.garage)
    assert stood and all(query["sql"].startswith("SELECT") for query in asked)
    Link.objects.by_order().filter(before__title="New arm").delete()
    assert drawn() != stood
    draw_orders(cast.garage)
    assert drawn() == stood


def test_seat_and_wiring_go_on_paint_once_it_has_mostly_cured_until_somebody_says_how_long_it_takes(cast, car, add):
    paint = add("Paint the inside", kinds=["paint"])
    seat, polish = add("Seat and belts in", kinds=["seat_work", "seat_or_belt_moved"]), add("Polish it")
    drawn_link = Link.objects.by_order().filter(before=paint, after=seat)
    assert drawn_link.get().wait_minutes == 7 * 24 * 60 and "nobody has said how long" in drawn_link.get().why
    assert load_page(paint, cast.owner, [], NOW).cure_unsaid
    said = links.add(paint, polish)
    assert drawn_link.get().wait_minutes
    links.change(said, wait_minutes=16 * 60, why="it cures")
    assert drawn_link.get().wait_minutes == 0 and drawn_link.get().why.startswith("paint is on before")
    assert not load_page(paint, cast.owner, [], NOW).cure_unsaid


def test_paint_of_a_recipe_waits_as_the_recipe_says(cast, car, add):
    made = put(car, "panel-repair-paint", cast.owner)
    add("Seat and belts in", kinds=["seat_work", "seat_or_belt_moved"])
    coats = [job.pk for job in made.values() if "paint" in job.kinds]
    assert coats and not Link.objects.by_order().filter(before__in=coats).exclude(wait_minutes=0).exists()
