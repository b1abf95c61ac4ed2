"""A car that runs: at events, of which somebody says so or nobody, and round the block.

As in `car_told_twice` the rules are told from what was done alone.
"""

from contextlib import suppress
from datetime import datetime, timedelta

from hypothesis import strategies as st
from hypothesis.stateful import rule

from builds.scrutineering.actions import runs
from builds.steps.actions import jobs, steps
from garage.actions.refused import Refused
from garage.models import Garage, Membership, Vehicle
from tests.factories import EntryFactory, EventFactory

STEP = timedelta(minutes=10)


class Driven:
    """`ran` holds the moments at which it ran, or may have, `events` when those were over at which it did."""

    garage: Garage
    car: Vehicle
    people: dict[str, Membership]
    at: datetime
    ran: list[datetime]
    events: list[datetime]

    @rule(said=st.sampled_from(["ran", "ran on", "did not run", "nobody said"]))
    def event(self, said) -> None:
        """One that ran on was put right after its first session, and ran again until the event was over."""
        ends = self.at + (100 if said == "ran on" else 3) * STEP
        event = EventFactory(garage=self.garage, gates_at=self.at + STEP, ends_at=ends, runs=1)
        entry = EntryFactory(event=event, vehicle=self.car)
        if said.startswith("ran"):
            self.at += 2 * STEP
            runs.first_session(entry, by=self.people["Ines"], at=self.at)
            self.ran.append(self.at)
            if said == "ran on":
                self.put_right("")
        elif said == "did not run":
            runs.did_not_run(entry, by=self.people["Ines"], at=ends)
        if said != "did not run":
            self.ran.append(ends)
            self.events.append(ends)
        self.at = max(self.at, ends) + STEP

    @rule(who=st.integers(0, 2))
    def drive(self, who) -> None:
        """A shake-down is a run."""
        self.at += STEP
        row = jobs.add(
            self.car, by=self.people["Ines"], at=self.at, title="Shake-down", work=(1, 2, 3),
            systems=["body"], kinds=["driven"], rank="needed",
        )  # fmt: skip
        self.at += STEP
        with suppress(Refused):  # not before it was torqued: then nobody drives
            steps.finish(row, by=self.people[self.who(who)], at=self.at)
            self.ran.append(self.at)
