"""The verdict for the event's day: what a plan clears, what it leaves, what must be signed."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from builds.verdict.engine import (
    CheckFact,
    CureFact,
    Facts,
    GearFact,
    HoldFact,
    JobFact,
    JointFact,
    ReadingFact,
    StaleList,
    WeldFact,
    verdict,
)
from builds.verdict.engine.on_plan import STAYS, PlannedJob, on_plan
from builds.verdict.engine.record_rules import NAMED

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
BRAKES = JobFact(1, "Bleed the brakes", "safety", "open", ("brakes",))
FAN = JobFact(2, "Fit the fan", "needed", "open", ("cooling",))
IN_TIME = PlannedJob("in_time", "Thu 20:30")


def car(*jobs: JobFact, **more) -> Facts:
    return replace(Facts(9, AT, "driveable", jobs), **more)


def test_a_car_with_nothing_in_its_way_stays_so():
    assert on_plan(car(), {}).sentence == "On plan, nothing stands in the way."


def test_work_that_ends_in_time_is_cleared():
    found = on_plan(car(FAN), {2: IN_TIME})
    assert (found.state, found.sentence) == ("clear", "On plan, nothing stands in the way.")


def test_safety_work_in_time_is_clear_once_it_is_signed():
    found = on_plan(car(BRAKES, FAN), {1: IN_TIME, 2: IN_TIME})
    assert found.sentence == ("On plan, nothing stands in the way once its safety work is signed.")


def test_hold_points_on_the_way_are_named():
    holds = (HoldFact(1, "Pedal firm."), HoldFact(2, "Fan turns the right way"))
    found = on_plan(car(BRAKES, FAN, holds=holds), {1: IN_TIME, 2: IN_TIME})
    assert found.sentence == (
        "On plan, nothing stands in the way once 2 hold points are signed (“Bleed the brakes”: Pedal"
        " firm; “Fit the fan”: Fan turns the right way)."
    )


@pytest.mark.parametrize(
    ("planned", "why"),
    [
        (PlannedJob("late", "Sat 12:00"), "The plan ends it Sat 12:00, too late."),
        (PlannedJob("behind", "Mon 20:00"), "The plan had it done Mon 20:00."),
        (PlannedJob("unplaced"), "It has no place in the plan."),
        (PlannedJob("new"), "It came after the plan."),
    ],
)
def test_what_is_late_or_not_planned_stays_with_its_why(planned, why):
    found = on_plan(car(BRAKES, FAN), {1: planned, 2: IN_TIME})
    assert (found.state, found.sentence) == (
        "blocked",
        "On plan, 1 of the 2 things still stands in the way on the day: Open safety job: “Bleed the brakes”. " + why,
    )


def test_every_word_for_what_stays_is_tried_above():
    assert set(STAYS) == {"late", "behind", "unplaced", "new"}


def test_a_job_that_the_plan_does_not_know_stays():
    assert on_plan(car(BRAKES), {}).reasons[0].sentence.endswith("It came after the plan.")


def test_what_no_plan_touches_stays():
    done = JobFact(3, "Swap a hose", "safety", "done", ("brakes",), worked=True)
    gear = (GearFact(5, "Belts", "out", "Ran out on 31 March 2026."),)
    failed = (CheckFact(6, "Net", "failed"),)
    found = on_plan(car(done, FAN, gear=gear, checks=failed), {2: IN_TIME})
    assert [each.sentence for each in found.reasons] == [
        "“Swap a hose” is done, but nobody has signed it.",
        "Out of date on the day: Belts. Ran out on 31 March 2026.",
        "Failed: Net.",
    ]
    assert found.sentence.endswith("And 1 more.")


def test_a_reading_that_a_planned_job_takes_again_is_cleared_and_one_out_is_not():
    readings = (
        ReadingFact("toe", "Toe", "void"),
        ReadingFact("camber", "Camber", "missing"),
        ReadingFact("caster", "Caster", "out"),
    )
    measuring = PlannedJob("in_time", "", ("toe", "caster"))
    found = on_plan(car(FAN, readings=readings), {2: measuring})
    assert [each.sentence for each in found.reasons] == [
        "Not taken yet: Camber.",
        "Out of its limits: Caster.",
    ]
    late = on_plan(car(FAN, readings=readings), {2: replace(measuring, ends="late")})
    assert len(late.reasons) == 4


def test_a_weld_is_whole_only_when_all_work_is_over_in_time():
    weld = JobFact(3, "Weld it out", "safety", "open", ("steering",))
    test = JobFact(4, "Crack test", "safety", "open", ("steering",))
    tacked = (WeldFact(3, "Weld it out", "tacked"),)
    assert on_plan(car(weld, test, welds=tacked), {3: IN_TIME, 4: IN_TIME}).state == "clear"
    left = on_plan(car(weld, test, welds=tacked), {3: IN_TIME, 4: PlannedJob("late", "Sat")})
    assert [each.sentence for each in left.reasons] == [
        "A weld is only tacked: “Weld it out” comes next.",
        "Open safety job: “Crack test”. The plan ends it Sat, too late.",
    ]


def test_ticks_and_wheels_are_things_people_still_do():
    ticks = (CheckFact(1, "Net", "open"), CheckFact(2, "Hook", "open"))
    found = on_plan(car(FAN, checks=ticks, standing="stands"), {2: IN_TIME})
    assert found.sentence == (
        "On plan, nothing stands in the way once 2 scrutineering items are ticked and it stands on its wheels."
    )


def test_items_that_the_verdict_tells_as_one_are_counted_each():
    unseen = tuple(CheckFact(1, f"Item {number}", "open") for number in range(NAMED + 1))
    found = on_plan(car(FAN, checks=unseen), {2: IN_TIME})
    assert found.on_the_way == (f"{NAMED + 1} scrutineering items are ticked",)


def test_a_list_to_be_made_again_is_one_thing_to_tick():
    found = on_plan(car(FAN, stale_list=StaleList(1, "Kiln Lane", "")), {2: IN_TIME})
    assert (found.state, found.on_the_way) == ("clear", ("1 scrutineering item is ticked",))


def test_a_car_on_stands_with_no_work_ahead_stays_there():
    found = on_plan(car(standing="stands"), {})
    assert found.sentence == ("On plan, 1 thing still stands in the way on the day: The car is on stands.")


def test_what_is_not_recorded_is_said_beside_the_reasons():
    found = on_plan(car(FAN, unknown=("readings",)), {2: PlannedJob("unplaced")})
    assert found.sentence.endswith("It has no place in the plan. Nobody has said which readings it must have.")


def test_what_is_not_recorded_is_never_clear():
    found = on_plan(car(FAN, unknown=("readings", "gear")), {2: IN_TIME})
    assert (found.state, found.sentence) == (
        "not_known", "On plan, not known: nobody has said which readings and gear it must have.",
    )  # fmt: skip


def test_without_a_plan_there_is_nothing_more_to_say():
    then = on_plan(car(BRAKES, FAN, unknown=("readings",)), None)
    assert (then.state, then.sentence, then.reasons) == ("not_known", "There is no plan yet.", ())


BUSH = JobFact(3, "New bush", "needed", "open", ("suspension",))
ALIGN = JobFact(4, "Set toe", "needed", "open")
TOE = ReadingFact("toe_front", "Front toe", "stands")


def bush(over=4):
    return PlannedJob("in_time", "Thu", kinds=("bushing_or_mount",), over=over)


def sentences(then):
    return [reason.sentence for reason in then.reasons]


@pytest.mark.parametrize(
    ("joint", "opened"),
    [
        (JointFact(7, "Arm bolt", "stands", "", ("bushing_or_mount",), ("suspension",)), True),
        (JointFact(7, "Arm bolt", "stands", "", ("bushing_or_mount",)), True),
        (JointFact(7, "Arm bolt", "stands", "", ("bushing_or_mount",), ("brakes",)), False),
        (JointFact(7, "Arm bolt", "stands", "", ("pin_out",), ("suspension",)), False),
        (JointFact(7, "Arm bolt", "stands", "", ("wheel_off",), ("wheels",)), True),  # a wheel comes off for it
    ],
)
def test_a_joint_that_planned_work_opens_wants_its_mark_and_signature(joint, opened):
    then = on_plan(car(BUSH, joints=(joint,)), {3: bush()})
    assert sentences(then) == ["To be marked again: Arm bolt. “New bush” opens it."] * opened
    assert then.state == ("blocked" if opened else "clear")


def test_what_is_opened_too_late_or_not_at_all_stands_on_the_day():
    joint = JointFact(7, "Arm bolt", "stands", "", ("bushing_or_mount",))
    then = on_plan(car(BUSH, joints=(joint,)), {3: replace(bush(), ends="late")})
    assert sentences(then) == ["Open safety job: “New bush”. The plan ends it Thu, too late."]


@pytest.mark.parametrize(("measured", "void"), [(3, True), (5, False)])
def test_a_reading_that_planned_work_undoes_counts_unless_it_is_taken_after_that(measured, void):
    align = PlannedJob("in_time", "Thu", ("toe_front",), over=measured)
    then = on_plan(car(BUSH, ALIGN, readings=(TOE,)), {3: bush(), 4: align})
    said = ["Void: Front toe. “New bush” undoes it, and nobody measures it after that."]
    assert sentences(then) == said * void


def test_a_reading_that_a_job_takes_as_its_last_act_is_not_undone_by_it():
    then = on_plan(car(BUSH, readings=(TOE,)), {3: replace(bush(), measures=("toe_front",))})
    assert then.state == "clear"


@pytest.mark.parametrize("state", ["missing", "out", "note"])
def test_what_does_not_stand_today_says_what_it_said_though_work_comes_over_it(state):
    facts = car(BUSH, readings=(replace(TOE, state=state),))
    assert sentences(on_plan(facts, {3: bush()})) == [
        reason.sentence for reason in verdict(facts).reasons if reason.kind == "reading"
    ]


def test_a_reading_of_the_garage_s_own_goes_with_the_one_it_follows():
    own = ReadingFact("own-1", "Rake", "stands", "", "ride_height")
    assert len(on_plan(car(BUSH, readings=(own,)), {3: bush()}).reasons) == 1


def test_ticks_that_planned_work_undoes_are_ticked_again():
    ticked = (
        CheckFact(1, "Arms", "stands", "", ("suspension",)),
        CheckFact(1, "Bushes", "stands", "", (), ("bushing_or_mount",)),
        CheckFact(1, "Horn", "stands", "", ("electrics",)),
    )
    then = on_plan(car(BUSH, checks=ticked), {3: bush()})
    assert "2 scrutineering items are ticked" in then.on_the_way


def test_how_the_two_counts_hang_together():
    """Of those of today where it is some of them; where something new comes, there is no such part."""
    left = on_plan(car(BRAKES, FAN, standing="stands"), {1: IN_TIME})
    assert left.sentence.startswith("On plan, 1 of the 3 things still stands in the way on the day: ")
    joints = (JointFact(7, "Arm bolt", "stands", "", ("bushing_or_mount",)),)
    new = on_plan(car(BRAKES, FAN, BUSH, joints=joints), {1: IN_TIME, 3: bush()})
    assert new.sentence.startswith("On plan, 2 things still stand in the way on the day: ")


def test_after_a_drive_what_running_changes_is_looked_at_again():
    found = on_plan(car(FAN), {2: replace(IN_TIME, kinds=("driven",))})
    assert found.sentence == (
        "On plan, nothing stands in the way once what running changes is looked at again after “Fit the fan”."
    )


@pytest.mark.parametrize("by_then", [True, False])
def test_what_cures_today_is_no_reason_on_a_day_on_which_that_is_over(by_then):
    cure = CureFact(2, "Bond the screen", AT, by_then=by_then)
    facts = car(replace(FAN, state="done"), cures=(cure,))
    assert verdict(facts).sentence == "Not fit to run: 1 thing stands in the way"
    assert on_plan(facts, {}).state == ("clear" if by_then else "blocked")
