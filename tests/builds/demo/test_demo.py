"""The demo garage: whole, invented, dated from the day it is loaded, and planned in trade order."""

from itertools import pairwise

import pytest

from builds.joints.facts import joint_lines
from builds.money.facts import load_money
from builds.needs.facts.fits import answer_of
from builds.packing.pages.pack_list import pack_view
from builds.plan.engine.ids import pk_of
from builds.plan.facts.problem import build_problem
from builds.planner.search import plan
from builds.readings.facts.readings import readings_of
from builds.scrutineering.pages.check_list import entry_checks
from builds.shelf.pages.owed import owed_lines
from builds.shelf.pages.want_page import load_want_page
from builds.shop.pages.cures import running_cures
from builds.verdict.engine import Severity
from builds.verdict.facts.verdict import verdict_of, verdicts
from builds.work.facts.work import load_work
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.span import Span
from garage.models import Entry, Event, Garage
from parts.models import Balance, Part
from parts.pages.fit import load_fit_page
from tests.conftest import Browserless
from tests.factories import NOW


def test_it_has_what_the_garage_has(demo):
    assert demo.name == "Quayside Lock-up"
    assert [car.name for car in demo.vehicles.all()] == ["Heron", "Badger", "Moth", "Tug"]
    assert [member.name for member in demo.memberships.all()] == ["Ines", "Tove", "Priya"]
    assert all(event.gates_at > NOW for event in demo.events.all())
    assert HoldPoint.objects.in_garage(demo).reached().count() == 1


def test_a_steering_arm_is_half_way_and_its_primer_cures(demo):
    primed = Job.objects.in_garage(demo).get(title="Prime the arm")
    assert primed.state == "done"
    spans = Span.objects.filter(job=primed)
    assert all(span.from_at <= NOW for span in spans)
    found = verdicts(demo, NOW)
    heron = demo.vehicles.get(name="Heron")
    assert found[heron.pk].do_not_drive


def test_the_plan_keeps_the_trades_order_and_fills_the_cure(demo):
    problem, _ = build_problem(demo, NOW)
    answer = plan(problem)
    titles = dict(Job.objects.filter(vehicle__garage=demo, vehicle__name="Heron").values_list("pk", "title"))
    placed = {titles[pk_of(row.id)]: row for row in answer.placed if pk_of(row.id) in titles}
    order = [
        "Paint the arm",
        "Refit the arm with new nuts and pins",
        "Wheels on and car down",
        "Check camber and caster",
        "Read rear toe, then set front toe last",
        "Torque the wheels by hand",
    ]
    for before, after in pairwise(order):
        assert placed[before].end <= placed[after].start
    cured = placed["Paint the arm"].end, placed["Refit the arm with new nuts and pins"].start
    assert (cured[1] - cured[0]) * problem.slot_minutes >= 12 * 60
    others = [row for row in answer.placed if cured[0] <= row.start < cured[1]]
    assert others, "nothing fills the cure"


def test_a_garage_with_cars_is_left_alone(demo):
    owner = demo.memberships.get(person__name="Ines")
    client = Browserless()
    client.force_login(owner.person)
    assert client.press("/demo/").status_code == 403
    assert Garage.objects.count() == 1


def test_the_weather_and_a_part_on_order_are_in_it(demo):
    times = load_work(demo, NOW).times
    assert not times.shop.is_example and times.shop.dew is not None
    (cure,) = running_cures(load_work(demo, NOW))
    assert (cure.job.title, cure.product) == ("Prime the arm", "Epoxy primer, two-pack")
    (need,) = Need.objects.in_garage(demo).open().exclude(expected_on=None)
    assert need.expected_on > NOW.date()


def test_its_shelf_has_some_seventy_parts_and_three_robbed_cars(demo):
    assert 60 < Part.objects.in_garage(demo).count() < 75
    assert Balance.objects.filter(quantity__lt=0, outside=False).count() == 0
    owed = owed_lines(demo, NOW)
    assert {line.vehicle.name: line.job.rank for line in owed} == {
        "Badger": "safety",
        "Moth": "needed",
        "Tug": "needed",
    }
    assert all(line.went_to and line.went_to.vehicle != line.vehicle for line in owed)
    states = [state for state, _, _ in load_want_page(demo, NOW).groups]
    assert states == ["find", "promised", "ordered", "shelf"]


def test_its_readings_stand_or_are_void_and_one_job_measures_again(demo):
    tug = demo.vehicles.get(name="Tug")
    lines = readings_of(demo, [tug], NOW)[tug.pk].lines
    assert [lines[key].state for key in ("fluid_levels", "toe_front", "wheel_torque")] == [
        "stands",
        "void",
        "stands",
    ]
    again = Job.objects.in_garage(demo).taking_again().open()
    assert {str(job.vehicle): job.title for job in again}["Tug"] == "Measure again: front toe"
    heron = demo.vehicles.get(name="Heron")
    taken = readings_of(demo, [heron], NOW)[heron.pk].lines
    assert [taken[key].state for key in ("corner_weights", "toe_front")] == ["stands", "void"]
    # its recipe measures the rest at its end; nobody has said what the new belts open
    assert [job.title for job in again.filter(vehicle=heron)] == ["Measure again: belt angles and routing"]


def test_its_shelf_says_what_fits_and_its_wants_are_answered(demo):
    asked = load_fit_page(demo, "5×112, bore ≥ 66.6, cone seat")
    assert {group.label: [str(row.part) for row in group.rows] for group in asked.groups} == {
        "Fits": ["Steel wheel, 15 in"],
        "Does not fit": ["Alloy wheel, 15 in"],
    }
    nuts = load_fit_page(demo, "M12×1.25 nuts")
    assert [str(row.part) for row in nuts.groups[0].rows] == ["M12×1.25 self-locking nut, 10"]
    answers = {answer_of(need, need.part).state for need in Need.objects.exclude(fit=[])}
    assert answers == {"fits"}


def test_every_kind_of_reason_stands_in_the_demo_somewhere(demo):
    found = {reason.severity for each in verdicts(demo, NOW).values() for reason in each.reasons}
    assert found == set(Severity)


def test_one_car_has_joints_in_every_state_that_a_visitor_should_see(demo):
    heron = demo.vehicles.get(name="Heron")
    lines = joint_lines(demo, demo.vehicles.all(), NOW)
    assert list(lines) == [heron.pk]
    assert {line.joint.name: line.standing.state for line in lines[heron.pk]} == {
        "Caliper bolts, front": "loose",
        "Shoulder strap bolts": "unsigned",
        "Sump plug": "stands",
        "Tie-rod ends, both sides": "loose",
        "Wheel nuts, front": "loose",
    }
    said = [reason.sentence for reason in verdict_of(heron, NOW).reasons]
    assert "Marked, not signed: Shoulder strap bolts. Nobody else has looked at it." in said


@pytest.fixture
def entry(demo):
    return Entry.objects.in_garage(demo).get(vehicle__name="Moth", event__name="Kiln Lane Autocross")


def test_a_list_is_half_ticked_with_one_item_failed(entry):
    main = entry_checks(entry, NOW).main
    assert 0.3 < main.done / main.of < 0.7
    assert main.failed == 1
    assert main.rows[0].item.section
    failed = next(row for row in main.rows if row.failed)
    assert failed.job.title == "Extinguisher bracket is loose" and failed.job_open
    assert all(row.item.at is None or row.item.at < NOW for row in main.rows)


def test_the_organisers_own_lines_are_in_it(entry):
    texts = {row.item.text: row.item.section for row in entry_checks(entry, NOW).main.rows}
    assert texts["Second throttle spring fitted"] == "Car"


def test_a_pack_list_has_tools_spares_and_own_lines_and_some_is_packed(entry):
    view = pack_view(Event.objects.get(pk=entry.event_id))
    assert {section.slug for section in view.sections} >= {
        "papers", "gear", "tools", "spares", "consumables", "own",
    }  # fmt: skip
    assert 0 < view.done < view.of


def test_it_has_spent_something(demo):
    money = load_money(demo, NOW)
    cars = {car.name: money.of_car(car).minor for car in money.vehicles}
    # Badger: 4 tyres at 68.00, spacers 12.00. Heron: padding 2 × 8.50, washers 4 × 0.30.
    assert (cars["Badger"], cars["Heron"], cars["Moth"]) == (28400, 1820, 1100)
    assert len(money.budgets) == 3
