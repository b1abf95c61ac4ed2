"""Each invariant of the season catches a lie of its own, and says so; the truth passes all of them."""

from dataclasses import replace
from datetime import timedelta

import pytest

from builds.plan.engine.ids import id_of
from builds.plan.facts.stored import shown
from builds.planner.plan import Placed, Plan
from builds.planner.problem import Job, Link, Person, Problem, Vehicle
from builds.steps.actions import steps
from builds.verdict.engine import Verdict
from tests.season import invariants
from tests.season.invariants import INVARIANTS, broken
from tests.season.looks import ALL, PLAN, Look, Pieces, Told, WallPlan, Whole, look, moves
from tests.season.made_garage import MIDNIGHT, enter, make_garage, put_on
from tests.season.people import Season

pytestmark = pytest.mark.once

AT = MIDNIGHT
READY = "By the plan ready Thu 20:30, in time."
CHAIN = Problem(
    slots=96,
    vehicles=(Vehicle("heron"),),
    people=(Person("ines", windows=((0, 96),)),),
    jobs=tuple(Job(job, "heron", "needed", 4, 1) for job in ("strip", "wheels", "weigh")),
    links=(Link("strip", "wheels"), Link("wheels", "weigh")),
)
ANSWER = Plan(tuple(Placed(job, at, at + 4, ("ines",)) for job, at in (("strip", 0), ("wheels", 4), ("weigh", 8))))
TRUTH = Look(
    AT,
    told={
        "Heron": {
            "verdict": Told("Fit to run", 0),
            "key board": Told("Fit to run", 0),
            "today, Sprint": Told(makes_it="yes", outlook=READY, on_the_day="Nothing stands in the way."),
            "plan, Sprint": Told(makes_it="yes", outlook=READY),
            "sheet, Sprint": Told("Fit to run", 0, outlook=READY, on_the_day="Nothing stands in the way."),
        }
    },
    whole={"Heron": Whole("fit"), "Moth": Whole("not_fit", ("Bleed",), ("The welds",), ("Wheels on",))},
    wall=WallPlan(CHAIN, ANSWER, (Pieces("heron", 0, 8, ("strip", "wheels")),), {"weigh": "Weigh it"}),
    moved=("“Weigh it”",),
    caused=True,
)


def saying(place, **other):
    """The truth, with one place that says something else of Heron."""
    heron = TRUTH.told["Heron"]
    return replace(TRUTH, told={"Heron": {**heron, place: replace(heron[place], **other)}})


def weighed_at(slot):
    weighed = Placed("weigh", slot, slot + 4, ("ines",))
    answer = replace(ANSWER, placed=(*ANSWER.placed[:2], weighed))
    return replace(TRUTH, wall=replace(TRUTH.wall, answer=answer))


LIES = {
    "another sentence on the sheet": ("one_verdict", saying("sheet, Sprint", verdict="Not fit to run")),
    "a reason less on the key board": ("one_verdict", saying("key board", reasons=1)),
    "a plan that is late": ("one_outcome", saying("plan, Sprint", makes_it="no")),
    "another sentence on the plan": ("one_outcome", saying("plan, Sprint", outlook="Touch and go.")),
    "another outlook on the sheet": ("one_outcome", saying("sheet, Sprint", outlook="Touch and go.")),
    "another day on the sheet": ("one_outcome", saying("sheet, Sprint", on_the_day="1 thing stands in the way.")),
    "weighed while in pieces": ("nothing_planned_in_pieces", weighed_at(7)),
    "a reading taken in pieces": (
        "nothing_done_in_pieces",
        replace(TRUTH, done_stripped=("“Weigh it” is in hand",)),
    ),
    "fit with open safety work": ("fit_is_whole", replace(TRUTH, whole={"Heron": Whole("fit", ("Bleed",))})),
    "fit with an open hold point": ("fit_is_whole", replace(TRUTH, whole={"Heron": Whole("fit", (), ("Welds",))})),
    "fit and in pieces": ("fit_is_whole", replace(TRUTH, whole={"Heron": Whole("fit", (), (), ("Wheels on",))})),
    "fit and run since its torque": (
        "fit_is_whole",
        replace(TRUTH, whole={"Heron": Whole("fit", (), (), (), ("Shake-down",))}),
    ),
    "a plan with a fault": ("plan_is_sound", weighed_at(4)),
    "moved by itself": ("moves_have_a_cause", replace(TRUTH, caused=False)),
    "moved and no why": ("moves_have_a_cause", replace(TRUTH, unexplained=("“Weigh it” (Thu instead of Wed)",))),
}


def test_the_truth_breaks_nothing():
    assert broken(TRUTH) == []


def test_every_invariant_meets_a_lie():
    assert {name for name, _ in LIES.values()} == {holds.__name__ for holds in INVARIANTS}


@pytest.mark.parametrize("lie", LIES)
def test_a_lie_is_caught_by_its_invariant_and_told_in_a_sentence(lie):
    name, told = LIES[lie]
    (sentence, *_) = getattr(invariants, name)(told)
    assert any(sentence in line for line in broken(told))


@pytest.fixture
def season(db, clock):
    made = make_garage()
    season = Season(made, clock, seed=1)
    season.act("recipe", lambda: put_on(made, "Heron", ("brake-overhaul",), at=clock.at))
    season.act("entry", lambda: enter(made, 5, "Pier Sprint", ("Heron",)))
    return season


def seen(season, **more):
    """As at the first look: the plan on the wall is a new one."""
    return look(season.made.owner, season.at, None, **{"wrote": True, "deep": ALL, **more})


def test_a_real_garage_is_told_by_every_place(season):
    told = seen(season).told["Heron"]
    assert {place.partition(",")[0] for place in told} == {"verdict", "key board", "today", "plan", "sheet"}
    assert seen(season).wall.pieces
    assert seen(season).wall.on_wheels
    assert season.wrong == []


def test_a_reading_on_a_real_car_in_pieces_is_seen(season, clock):
    job = season.made.cars["Heron"].jobs
    strip = job.get(title__startswith="Wheels off")
    season.left[strip.pk] = 60
    steps.start(strip, by=season.made.owner, at=season.at)
    season.read(strip, "ride_height", season.made.owner)
    assert seen(season).done_stripped == ()
    clock.forward(minutes=20)
    season.read(strip, "ride_height", season.made.owner)
    (what,) = seen(season).done_stripped
    assert what == "ride_height of Heron was read"


def test_a_verdict_that_lies_on_one_place_alone_is_seen(season, monkeypatch):
    monkeypatch.setattr("builds.cars.pages.key_board.verdict", lambda facts: _fit(facts))
    assert any("more than one verdict" in line for line in broken(seen(season)))


def _fit(facts):
    return Verdict(facts.at, "fit", "Fit to run")


def test_work_that_moved_by_itself_is_seen_at_night_and_not_after_a_session(season, clock):
    before = season.plan
    clock.at = MIDNIGHT + timedelta(hours=17, minutes=10)
    assert look(season.made.owner, clock.at, before, wrote=False, deep=PLAN).moved == ()
    held = replace(before, row=shown(season.made.garage).row.__class__(pk=0, made_at=before.row.made_at))
    late = replace(
        held, answer=replace(held.answer, placed=tuple(replace(p, start=p.start + 96) for p in held.answer.placed))
    )
    assert moves(late, before)
    assert moves(late, before, but_for={id_of("car", season.made.cars["Heron"].pk)}) == {}
    at_night = look(season.made.owner, clock.at, late, wrote=False, deep=PLAN)
    assert any("nobody was in" in line for line in broken(at_night))
    after = look(season.made.owner, MIDNIGHT + timedelta(hours=20), late, wrote=False, deep=PLAN)
    assert not any("nobody was in" in line for line in broken(after))
