"""Why a reading does not count, word for word."""

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from builds.readings.engine.conditions import lacking_words
from builds.readings.engine.fields import CHECK, FAIL, PASS, TEXT, Field, fields_of
from builds.readings.engine.judge import OUT
from builds.readings.engine.void import (
    FINISHED,
    GOES_ON,
    LEFT,
    MISSING,
    OLD,
    PULLED,
    RAN,
    STANDS,
    VOID,
    WRITTEN,
    FinishedWork,
)
from builds.readings.engine.why_not import goal_words, lapse_words, note_words, out_words, value_words
from builds.work.engine.running import Run

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
HOUR = timedelta(hours=1)


@dataclass
class Kind:
    slug: str = "toe_front"
    fields: tuple[Field, ...] = ()


@dataclass
class Line:
    """A reading as `why_not` is told of it."""

    state: str = STANDS
    kind: Kind = field(default_factory=Kind)
    taken_at: datetime | None = AT - 5 * HOUR
    work: FinishedWork | None = None
    through: str = ""
    run: Run | None = None
    days: int | None = None
    stripped: bool = False
    lacking: tuple[str, ...] = ()
    not_as_raced: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    values: dict[str, Any] = field(default_factory=dict)
    targets: dict[str, Any] = field(default_factory=dict)
    outside: tuple[str, ...] = ()

    def judged_value(self, slug: str) -> str:
        return OUT if slug in self.outside else ""


@dataclass
class Given:
    amount: int | None
    typed: str = ""


@dataclass
class Limit:
    sort: str
    amount: int
    second: int | None = None


def words(**told: Any) -> str:
    return lapse_words(Line(**told), UTC, AT)


def work(end: str) -> FinishedWork:
    return FinishedWork(1, "New tie rods", ("jam_nut",), AT - HOUR, AT - 2 * HOUR, end)


@pytest.mark.parametrize(("end", "said"), [
    (FINISHED, "“New tie rods” was finished Tue 2 Mar 16:00, and it has not been taken since."),
    (LEFT, "“New tie rods” was worked on until Tue 2 Mar 16:00, and it has not been taken since."),
    (WRITTEN, "“New tie rods” was written down Tue 2 Mar 16:00, and it has not been taken since."),
    (PULLED, "“New tie rods” came off Tue 2 Mar 16:00, and it has not been taken since."),
    (GOES_ON, "“New tie rods” has been in hand since Tue 2 Mar 15:00."),
])  # fmt: skip
def test_what_made_it_void(end, said):
    assert words(state=VOID, work=work(end)) == said


def test_what_it_rests_on():
    through = words(state=VOID, work=work(FINISHED), through="camber")
    assert through.startswith("It rests on camber: “New tie rods” was finished ")
    assert through.endswith(", and that has not been taken since.")
    goes_on = words(state=VOID, work=work(GOES_ON), through="camber")
    assert goes_on.startswith("It rests on camber: “New tie rods” has been in hand since ") and "taken" not in goes_on


@pytest.mark.parametrize(("days", "said"), [(1, "counts for 1 day."), (2, "counts for 2 days.")])
def test_how_old_it_may_be(days, said):
    assert words(state=OLD, days=days).endswith(said)


def test_that_the_car_ran_or_may_have():
    told, asked = Run("Kiln Lane", AT - HOUR, True, 4), Run("Kiln Lane", AT - HOUR, False, 4)
    assert words(state=RAN, run=told).startswith("The car ran at Kiln Lane (")
    assert words(state=RAN, run=asked).endswith("nobody has said whether the car ran.")


@pytest.mark.parametrize("told", [
    {}, {"state": MISSING}, {"state": STANDS, "work": work(FINISHED)}, {"state": STANDS, "days": 3},
    {"state": VOID}, {"state": OLD}, {"state": OLD, "days": 3, "taken_at": None}, {"state": RAN},
    {"state": STANDS, "run": Run("Kiln Lane", AT, True, 4)},
])  # fmt: skip
def test_nothing_where_there_is_nothing_to_say(told):
    assert words(**told) == ""


TOE, CHECKED, SAID = fields_of("toe_front")[0], Field("passed", "Looked at", CHECK), Field("where", "Where", TEXT)


@pytest.mark.parametrize(("row", "value", "said"), [
    (TOE, None, ""),
    (TOE, Given(167, "0.167"), "0.167°"),
    (TOE, Given(167, "0°10'"), "0.167° (0°10')"),
    (TOE, Given(None, "0"), "0°"),
    (TOE, Given(167, "0.167 °"), "0.167°"),
    (CHECKED, Given(PASS, "passed"), "passed"),
    (CHECKED, Given(FAIL, "failed"), "failed"),
    (SAID, Given(None, "left foot well"), "left foot well"),
])  # fmt: skip
def test_a_value_in_words(row, value, said):
    assert value_words(row, value, "metric") == said


@pytest.mark.parametrize(("limit", "said"), [
    (None, ""),
    (Limit("least", 100), "at least 0.1°"),
    (Limit("most", 100), "at most 0.1°"),
    (Limit("between", -100, 100), "-0.1° to 0.1°"),
    (Limit("off", 100, 50), "0.1° ± 0.05°"),
])  # fmt: skip
def test_a_limit_in_words(limit, said):
    assert goal_words(TOE, limit, "metric") == said


def test_what_is_out_is_named_against_its_limit_with_its_sign():
    left, right = fields_of("toe_front")
    line = Line(
        kind=Kind("toe_front", (left, right)),
        values={"fl": Given(500, "0.5"), "fr": Given(0, "0")},
        targets={"fl": Limit("most", 100)},
        outside=("fl",),
    )
    assert out_words(line, "metric") == "Front left 0.5°, wanted at most 0.1° (toe-in +)."
    assert out_words(Line(kind=Kind("toe_front", (left, right))), "metric") == ""
    unlimited = Line(kind=Kind("brake_bleed", (CHECKED,)), values={"passed": Given(FAIL)}, outside=("passed",))
    assert out_words(unlimited, "metric") == "Looked at failed."


def test_why_it_is_only_a_note():
    assert note_words(Line()) == lacking_words(())
    line = Line(lacking=("fuel",), not_as_raced=("bars connected", "tank dry"), stripped=True, missing=("Rear left",))
    assert note_words(line) == (
        f"Not measured: rear left. {lacking_words(('fuel',))} "
        "Not as raced: bars connected, tank dry. The car was stripped or on stands when it was taken."
    )
