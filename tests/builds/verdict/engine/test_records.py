"""What is on record, as reasons: each alone, in pairs with every other, and none of them."""

from dataclasses import replace
from datetime import UTC, datetime
from itertools import combinations

import pytest

from builds.verdict.engine import (
    CheckFact,
    Facts,
    GearFact,
    HoldFact,
    JobFact,
    JointFact,
    PartFact,
    ReadingFact,
    Severity,
    StaleList,
    StripFact,
    WeldFact,
    verdict,
)
from builds.verdict.engine.record_rules import CHECK, GEAR, JOINT, NAMED, PART, READING, WELD
from builds.verdict.engine.records import STANDS

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
CAR = Facts(9, AT, "driveable")


def car(**more) -> Facts:
    return replace(CAR, **more)


# What is on record, how bad it is, where it is cleared (kind and row); each makes one reason.
ALONE = {
    "weld tacked": (car(welds=(WeldFact(1, "Weld it", "tacked"),)), Severity.LOOSE, ("job", 1)),
    "weld uninspected": (
        car(welds=(WeldFact(21, "Crack test", "uninspected"),)), Severity.UNSIGNED, ("job", 21),
    ),
    "joint slack": (car(joints=(JointFact(22, "Hook", "slack"),)), Severity.NEEDED, ("joint", 9)),
    "check failed": (
        car(readings=(ReadingFact("leak", "Leak test", "failed"),)),
        Severity.READING,
        ("reading", 9),
    ),
    "joint loose": (car(joints=(JointFact(2, "Arm", "loose"),)), Severity.LOOSE, ("joint", 9)),
    "joint unsigned": (
        car(joints=(JointFact(3, "Arm", "unsigned"),)), Severity.UNSIGNED, ("joint", 9),
    ),
    "joint void": (car(joints=(JointFact(5, "Arm", "void"),)), Severity.UNSIGNED, ("joint", 9)),
    "joint off": (car(joints=(JointFact(5, "Arm", "off"),)), Severity.READING, ("joint", 9)),
    "joint opened": (car(joints=(JointFact(5, "Arm", "opened"),)), Severity.UNSIGNED, ("joint", 9)),
    "joint due": (car(joints=(JointFact(4, "Hub", "due"),)), Severity.SAFETY, ("joint", 9)),
    "joint wrench": (car(joints=(JointFact(4, "Hub", "wrench"),)), Severity.NOT_KNOWN, ("joint", 9)),
    "joint ahead": (car(joints=(JointFact(4, "Hub", "ahead"),)), Severity.NOT_KNOWN, ("joint", 9)),
    "reading ahead": (
        car(readings=(ReadingFact("toe", "Toe", "ahead"),)), Severity.NOT_KNOWN, ("reading", 9),
    ),
    "joint asked": (car(joints=(JointFact(4, "Hub", "asked"),)), Severity.NOT_KNOWN, ("joint", 9)),
    "reading missing": (
        car(readings=(ReadingFact("toe", "Toe", "missing"),)), Severity.READING, ("reading", 9),
    ),
    "reading void": (
        car(readings=(ReadingFact("camber", "Camber", "void"),)), Severity.READING, ("reading", 9),
    ),
    "reading out": (
        car(readings=(ReadingFact("caster", "Caster", "out"),)), Severity.READING, ("reading", 9),
    ),
    "reading a note": (
        car(readings=(ReadingFact("height", "Ride height", "note"),)),
        Severity.READING,
        ("reading", 9),
    ),
    **{
        f"reading {state}": (
            car(readings=(ReadingFact("wheel_torque", "Wheel torque", state),)),
            Severity.NOT_KNOWN,
            ("limit" if state == "no_limit" else "reading", 9),
        )
        for state in ("ran", "asked", "old", "instrument", "no_limit")
    },
    "gear out": (car(gear=(GearFact(5, "Belts", "out"),)), Severity.GEAR, ("gear", 5)),
    "gear due": (car(gear=(GearFact(5, "Oil", "due"),)), Severity.GEAR, ("gear", 5)),
    "gear undated": (car(gear=(GearFact(6, "Seat", "undated"),)), Severity.GEAR, ("gear", 6)),
    "gear struck": (car(gear=(GearFact(7, "Helmet", "struck"),)), Severity.GEAR, ("gear", 7)),
    "gear missing": (
        car(gear=(GearFact(0, "Extinguisher", "missing"),)), Severity.GEAR, ("gear_needed", 9),
    ),
    "part not fitted": (
        car(parts=(PartFact(8, "Fit the hose", "hose", "unfitted"),)), Severity.PART, ("job", 8),
    ),
    "part that does not fit": (
        car(parts=(PartFact(9, "Fit the stud", "stud", "misfit"),)), Severity.PART, ("job", 9),
    ),
    "item failed": (car(checks=(CheckFact(1, "Net", "failed"),)), Severity.FAILED, ("check", 1)),
    "item open": (car(checks=(CheckFact(2, "Hook", "open"),)), Severity.CHECK, ("check", 2)),
    "open safety job": (
        car(jobs=(JobFact(11, "Bleed", "safety", "open", ("brakes",)),)),
        Severity.SAFETY,
        ("job", 11),
    ),
    "safety job in hand": (
        car(jobs=(JobFact(12, "Rack", "safety", "in_hand", ("steering",), worked=True),)),
        Severity.LOOSE,
        ("job", 12),
    ),
    "open needed job": (
        car(jobs=(JobFact(13, "Fan", "needed", "open"),)), Severity.NEEDED, ("job", 13),
    ),
    "stripped": (
        car(
            jobs=(
                JobFact(14, "Strip", "wanted", "signed", worked=True),
                JobFact(15, "Refit", "wanted", "open"),
            ),
            strips=(StripFact(14, 15, "Bay"),),
        ),
        Severity.STRIPPED,
        ("job", 15),
    ),
    "hold point on finished work": (
        car(
            jobs=(JobFact(16, "Weld", "wanted", "signed", worked=True),),
            holds=(HoldFact(16, "Crack test"),),
        ),
        Severity.HOLD_POINT,
        ("job", 16),
    ),
    "on stands": (car(standing="stands"), Severity.STANDING, ("vehicle", 9)),
}  # fmt: skip
TUPLES = ("jobs", "holds", "strips", "welds", "joints", "readings", "gear", "parts", "checks")


def both(one: Facts, two: Facts) -> Facts:
    standing = one.standing if one.standing != "driveable" else two.standing
    return replace(one, standing=standing, **{name: getattr(one, name) + getattr(two, name) for name in TUPLES})


@pytest.mark.parametrize("case", ALONE)
def test_each_alone_is_one_reason_and_leads_to_what_clears_it(case):
    facts, severity, about = ALONE[case]
    found = verdict(facts)
    (reason,) = found.reasons
    assert (reason.severity, (reason.kind, reason.ref)) == (severity, about)
    assert found.state == ("not_known" if severity == Severity.NOT_KNOWN else "not_fit")
    assert reason.sentence and reason.clears.endswith(".")


def test_all_pairs_are_two_reasons_worst_first():
    for one, two in combinations(ALONE, 2):
        found = verdict(both(ALONE[one][0], ALONE[two][0]))
        assert [each.severity for each in found.reasons] == sorted([ALONE[one][1], ALONE[two][1]]), (one, two)
        assert {(each.kind, each.ref) for each in found.reasons} == {ALONE[one][2], ALONE[two][2]}, (one, two)
        if {ALONE[one][1], ALONE[two][1]} == {Severity.NOT_KNOWN}:
            assert found.sentence == "Not known to be fit: 2 things are not known"
        else:
            assert found.sentence == "Not fit to run: 2 things stand in the way"
        assert found.do_not_drive == (min(ALONE[one][1], ALONE[two][1]) <= Severity.FAULT), (one, two)


def test_what_is_not_known_and_what_is_not_recorded_are_said_together():
    facts = replace(ALONE["reading ran"][0], unknown=("gear",))
    found = verdict(facts)
    assert (found.state, found.sentence) == (
        "not_known",
        "Not known to be fit: 1 thing is not known and nobody has said which gear it must have",
    )


def test_none_is_fit():
    assert (verdict(CAR).state, verdict(CAR).reasons) == ("fit", ())


@pytest.mark.parametrize("case", ALONE)
def test_do_not_drive_is_implied_by_its_reasons_alone(case):
    facts, severity, _ = ALONE[case]
    found = verdict(facts)
    assert found.do_not_drive == (severity <= Severity.FAULT)
    assert all(reason.severity <= Severity.FAULT for reason in found.do_not_drive_reasons)


def test_every_state_on_record_is_tried_above():
    tried = {
        (name, each.state)
        for facts, _, _ in ALONE.values()
        for name in ("welds", "joints", "readings", "gear", "parts", "checks")
        for each in getattr(facts, name)
    }
    known = {
        (name, state)
        for name, table in [
            ("welds", WELD),
            ("joints", JOINT),
            ("readings", READING),
            ("gear", GEAR),
            ("parts", PART),
            ("checks", CHECK),
        ]
        for state in table
    }
    assert tried == known


def test_what_words_say_more_stands_in_the_sentence():
    (reason,) = verdict(car(gear=(GearFact(5, "Belts", "out", "Ran out on 31 March 2026."),))).reasons
    assert reason.sentence == "Out of date on the day: Belts. Ran out on 31 March 2026."


def test_what_stands_is_no_reason():
    standing = car(
        joints=(JointFact(1, "Arm", STANDS),),
        readings=(ReadingFact("toe", "Toe", STANDS),),
        checks=(CheckFact(2, "Hook", STANDS),),
    )
    assert verdict(standing).state == "fit"


def test_a_weld_on_which_no_job_comes_next_names_the_last_one_that_was():
    (reason,) = verdict(car(welds=(WeldFact(1, "Weld it", "uninspected", was_last=True),))).reasons
    assert reason.sentence == "A weld is not inspected: no job comes next. “Weld it” was the last of it."


@pytest.mark.parametrize(("many", "reasons"), [(NAMED, NAMED), (NAMED + 1, 1)])
def test_many_items_that_nobody_has_looked_at_are_told_as_one(many, reasons):
    ticked, touched = CheckFact(2, "Hook", STANDS), CheckFact(2, "Arms", "open", "Touched since: “Arms” is in hand.")
    unseen = tuple(CheckFact(2, f"Item {number}", "open") for number in range(many))
    found = [reason.sentence for reason in verdict(car(checks=(touched, *unseen, ticked))).reasons]
    assert found[0] == "Not ticked: Arms. Touched since: “Arms” is in hand."
    assert len(found) == 1 + reasons
    if many > NAMED:
        assert found[1] == f"Not ticked: {many} of the {many + 2} items of the scrutineering list."


@pytest.mark.parametrize(
    ("made_by", "looked_at_by", "said"),
    [
        ("Kiln Lane", "", "from the list of Kiln Lane, and the event goes by the general list"),
        ("", "Kiln Lane", "from the general list, and the event goes by the list of Kiln Lane"),
    ],
)
def test_a_list_that_its_event_is_not_looked_at_by_is_to_be_made_again(made_by, looked_at_by, said):
    (reason,) = verdict(car(stale_list=StaleList(4, made_by, looked_at_by))).reasons
    assert reason.sentence == f"Not ticked: the list itself. It was made {said}."
    assert reason.clears == "Bring the list up to date, then look at what is new on it."
    assert (reason.severity, reason.kind, reason.ref) == (Severity.CHECK, "check", 4)
