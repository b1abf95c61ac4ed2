"""From a reading or a joint as it stands to what the verdict is told of it."""

from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any

import pytest

from builds.joints.engine.joints import JointState
from builds.readings.engine.judge import NOT_JUDGED, OUT
from builds.readings.engine.void import MISSING, OLD, RAN, STANDS, VOID, FinishedWork
from builds.verdict.engine.joint_facts import joint_fact
from builds.verdict.engine.reading_facts import reading_facts
from builds.work.engine.running import Run
from garage.engine.gear import Judged

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
RAN_OUT = Judged("out", date(2027, 3, 1), "Ran out on 1 March 2027, by its label.")


@dataclass
class Kind:
    key: str = "toe_front"
    slug: str = "toe_front"
    label: str = "Front toe"
    follows: str = "toe_front"
    own: bool = False
    fields: tuple[Any, ...] = ()


@dataclass
class Line:
    state: str = STANDS
    kind: Any = None
    taken_at: datetime | None = AT
    work: FinishedWork | None = None
    through: str = ""
    run: Run | None = None
    days: int | None = None
    stripped: bool = False
    lacking: tuple[str, ...] = ()
    not_as_raced: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    judged: str = NOT_JUDGED
    failed: bool = False
    only_a_note: bool = False
    without_limit: tuple[Any, ...] = ()
    instrument: Judged | None = None

    @property
    def known_since(self) -> datetime | None:
        return self.taken_at

    def __post_init__(self) -> None:
        self.kind = self.kind or Kind()
        self.values, self.targets = {}, {}


def run(*, told: bool) -> Run:
    return Run("Kiln Lane", AT, told, 4)


@pytest.mark.parametrize(("line", "state"), [
    (Line(), "stands"),
    (Line(MISSING), "missing"),
    (Line(VOID), "void"),
    (Line(OLD, days=3), "old"),
    (Line(RAN, run=run(told=True)), "ran"),
    (Line(RAN, run=run(told=False)), "asked"),
    (Line(OLD, run=run(told=False)), "old"),
    (Line(judged=OUT), "out"),
    (Line(judged=OUT, failed=True), "failed"),
    (Line(judged=OUT, only_a_note=True), "out"),
    (Line(only_a_note=True), "note"),
    (Line(instrument=RAN_OUT), "instrument"),
    (Line(instrument=RAN_OUT, only_a_note=True), "note"),
    (Line(instrument=RAN_OUT, judged=OUT), "out"),
    (Line(OLD, days=3, instrument=RAN_OUT), "old"),
    (Line(VOID, judged=OUT), "void"),
])  # fmt: skip
def test_how_it_stands(line, state):
    (fact,) = reading_facts([line], "metric", UTC, AT)
    assert (fact.slug, fact.label, fact.state, fact.since) == ("toe_front", "Front toe", state, AT)


def test_all_that_nothing_judges_is_one_fact_more():
    facts = list(reading_facts([Line(without_limit=("fl",)), Line(), Line(without_limit=("fr",))], "metric", UTC, AT))
    assert [fact.state for fact in facts] == ["stands", "stands", "stands", "no_limit"]
    assert facts[-1].slug == ""


@dataclass
class Joint:
    safety: bool
    pk: int = 4
    name: str = "Wheel nuts"
    opened_by: tuple[str, ...] = ("wheel_off",)
    systems: tuple[str, ...] = ("wheels",)


@pytest.mark.parametrize(("state", "safety", "told"), [
    ("loose", True, "loose"), ("loose", False, "slack"), ("unsigned", True, "unsigned"), ("stands", False, "stands"),
    ("due", False, "due"),
])  # fmt: skip
def test_loose_is_slack_where_no_life_hangs_on_it(state, safety, told):
    fact = joint_fact(Joint(safety), JointState(state, "Why."), AT)
    assert (fact.state, fact.words, fact.since, fact.systems) == (told, "Why.", AT, ("wheels",))
