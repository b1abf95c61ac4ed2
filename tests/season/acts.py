"""What a fit car costs in forms sent: counted from its last event, or from the first work, until it is fit again."""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field


@dataclass
class Count:
    """Forms sent for one car since `since`, by what they were; `things` are what they wrote down, one by one."""

    since: str
    forms: Counter[str] = field(default_factory=Counter)
    things: int = 0

    @property
    def words(self) -> str:
        by_kind = ", ".join(f"{count} {name}" for name, count in self.forms.most_common())
        return f"{self.forms.total()} forms ({self.things} things, one by one): {by_kind}"


@dataclass
class Acts:
    """`running` by car; `reached` are those whose car came to be fit."""

    running: dict[str, Count] = field(default_factory=dict)
    reached: list[tuple[str, str, Count]] = field(default_factory=list)

    def begin(self, car: str, since: str) -> None:
        """An event of the car is over: a count that goes on without having led to a fit car is kept as it is."""
        if self.running.get(car) is None:
            self.running[car] = Count(since)

    def add(self, car: str, name: str, things: int = 1) -> None:
        """Whatever is written for a car that nobody has touched yet begins its first count."""
        if car and car not in self.running and not any(done == car for done, _, _ in self.reached):
            self.begin(car, "the start")
        if count := self.running.get(car):
            count.forms[name] += 1
            count.things += things

    def fit(self, cars: Iterable[str], on: str) -> None:
        for car in cars:
            if (count := self.running.get(car)) and count.forms:
                self.reached.append((car, on, self.running.pop(car)))

    def lines(self) -> Iterator[str]:
        for car, on, count in self.reached:
            yield f"{car}, from {count.since} until fit on {on}: {count.words}"
        for car, count in sorted(self.running.items()):
            yield f"{car}, from {count.since}, not fit yet: {count.words}"
