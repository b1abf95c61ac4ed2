"""A kind of reading on a car as it stands, judged by its limits."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Protocol

from builds.readings.engine.conditions import lacking, not_as_raced
from builds.readings.engine.fields import CHECK, TEXT, Field
from builds.readings.engine.judge import NOT_JUDGED, OUT, Goal, judge, judge_all
from builds.readings.engine.limits import without_limit
from builds.readings.engine.reading_kind import ReadingKind
from builds.readings.engine.void import MISSING, FinishedWork
from builds.readings.engine.why_not import Limit, Value
from builds.work.engine.running import Run
from garage.engine.gear import Judged
from garage.engine.systems_said import fault_said


class WrittenReading(Protocol):
    """A reading as it was written down, with its conditions (slugs) and how the car stood."""

    at: datetime
    stripped: bool
    bars: str
    driver: str
    fuel_ml: int | None

    @property
    def given(self) -> frozenset[str]: ...


class JudgingLimit(Limit, Protocol):
    """A limit with where it lets a figure lie."""

    @property
    def goal(self) -> Goal: ...


@dataclass(frozen=True)
class KindLine:
    """A kind of reading on a car: its newest reading that nobody struck out, and how it stands.

    `through` is the kind (slug) below it that `work` made void, where it is void only by resting on it;
    `run` is what it is not known since, `days` how old the garage lets it be, if it says so;
    `instrument` how what it was taken with stood that day, where it was out of its date. `kept` says when figures
    (slugs) were read that the newest left out and an older reading tells.
    """

    kind: ReadingKind
    required: bool = False
    reading: WrittenReading | None = None
    values: Mapping[str, Value] = field(default_factory=dict)
    targets: Mapping[str, JudgingLimit] = field(default_factory=dict)
    state: str = MISSING
    work: FinishedWork | None = None
    through: str = ""
    run: Run | None = None
    days: int | None = None
    instrument: Judged | None = None
    kept: Mapping[str, datetime] = field(default_factory=dict)

    @property
    def taken_at(self) -> datetime | None:
        return self.reading.at if self.reading else None

    def read_at(self, slug: str) -> datetime | None:
        """When that figure was read."""
        return self.kept.get(slug, self.taken_at)

    @property
    def known_since(self) -> datetime | None:
        """When the oldest of its figures was read."""
        return min(filter(None, [self.taken_at, *self.kept.values()]), default=None)

    @property
    def stripped(self) -> bool:
        return self.reading is not None and self.reading.stripped

    @property
    def amounts(self) -> dict[str, int | None]:
        return {slug: value.amount for slug, value in self.values.items()}

    @property
    def goals(self) -> dict[str, Goal]:
        return {slug: target.goal for slug, target in self.targets.items()}

    @property
    def judged(self) -> str:
        if self.reading is None:
            return NOT_JUDGED
        by_words = any(self.judged_value(field.slug) == OUT for field in self.kind.fields if field.type == TEXT)
        return OUT if by_words else judge_all(self.kind.fields, self.amounts, self.goals)

    def judged_value(self, slug: str) -> str:
        field = next(known for known in self.kind.fields if known.slug == slug)
        value = self.values.get(slug)
        if field.type == TEXT:
            return OUT if value is not None and fault_said(value.typed) else NOT_JUDGED
        return judge(field, self.amounts.get(slug), self.goals.get(slug))

    @property
    def without_limit(self) -> tuple[Field, ...]:
        return without_limit(self.kind.slug, self.kind.figures, self.targets)

    @property
    def failed(self) -> bool:
        """Whether a check in it failed; figures out of their limits can be set."""
        checks = [field.slug for field in self.kind.fields if field.type == CHECK]
        return any(self.judged_value(slug) == OUT for slug in checks)

    @property
    def lacking(self) -> tuple[str, ...]:
        """Conditions (slugs) without which it is only a note."""
        return lacking(self.kind.conditions, self.reading.given) if self.reading else ()

    @property
    def not_as_raced(self) -> tuple[str, ...]:
        """What else makes it only a note, in a few words each."""
        if self.reading is None:
            return ()
        taken = self.reading
        return not_as_raced(self.kind.key, bars=taken.bars, driver=taken.driver, fuel_ml=taken.fuel_ml)

    @property
    def missing(self) -> tuple[str, ...]:
        """The figures, by their labels, that nobody read with it and that no older reading tells."""
        if self.reading is None or not self.kind.read_alone:
            return ()
        return tuple(field.label for field in self.kind.figures if field.slug not in self.values)

    @property
    def only_a_note(self) -> bool:
        return bool(self.lacking or self.not_as_raced or self.stripped or self.missing)


@dataclass(frozen=True)
class CarReadings:
    """`required` is None while nobody has said which readings the car must have."""

    required: tuple[str, ...] | None
    lines: dict[str, KindLine]

    @property
    def required_lines(self) -> tuple[KindLine, ...]:
        return tuple(line for line in self.lines.values() if line.required)
