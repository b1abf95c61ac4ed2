"""A car that runs: at events, of which somebody says so or nobody, and round the block.

As in `car_told_twice` the rules are told from what was done alone.
"""

from collections.abc import Callable
from datetime import datetime

from hypothesis import strategies as st
from hypothesis.stateful import rule

from builds.scrutineering.actions import runs
from builds.steps.actions import jobs, steps
from garage.models import Garage, Membership, Vehicle
from tests.factories import EntryFactory, EventFactory
from tests.property.car_read import ENOUGH, Torque
from tests.property.car_works import STEP, Work

# A drive whose last act is a reading, taken well before the end of it, or before it was driven on.
DRIVES = ["", "read last", "read early", "read and driven on"]


class Driven:
    """`ran` holds the moments at which it ran, or may have, `events` when those were over at which it did.

    `drives` are the jobs in which it was driven.
    """

    garage: Garage
    car: Vehicle
    people: dict[str, Membership]
    at: datetime
    ran: list[datetime]
    drives: list[Work]
    events: list[datetime]
    who: Callable[[int], str]
    tried: Callable[..., bool]
    leave: Callable[..., None]

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

    @rule(who=st.integers(0, 2), how=st.sampled_from(DRIVES))
    def drive(self, who, how) -> None:
        """A shake-down is a run; nobody drives before it was torqued."""
        hand = self.who(who)
        self.at += STEP
        row = jobs.add(
            self.car, by=self.people["Ines"], at=self.at, title="Shake-down", work=(1, 2, 3),
            systems=["body"], kinds=["driven"], rank="needed",
        )  # fmt: skip
        drive = Work(row, "body", "needed", ["driven"])
        if how:
            self.measure(ENOUGH, drive)
        if how == "read early":
            self.at += 3 * STEP
        if how == "read and driven on" and self.tried(lambda at: steps.start(row, by=self.people[hand], at=at)):
            drive.begun = self.at
            self.leave(hand)
        if self.tried(lambda at: steps.finish(row, by=self.people[hand], at=at)):
            drive.left = self.at
            self.ran.append(self.at)
            self.drives.append(drive)
            self.car.refresh_from_db()
            self.standing = self.car.state
        else:
            self.tried(lambda at: steps.drop(row, by=self.people["Ines"], at=at, reason="it rains"))

    def ran_since(self, torque: Torque) -> bool:
        """But for a drive that was over with it."""
        over = [drive.left for drive in self.drives if torque.ended(drive)]
        return any(run > torque.at and run not in over for run in self.ran)
