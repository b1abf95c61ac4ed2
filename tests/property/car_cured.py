"""What cures on a car: bonded glass, paint where it is loaded or clamped. Trade rule 30.

As in `car_told_twice` the rules are told from what was done alone.
"""

from datetime import datetime, timedelta

from hypothesis import strategies as st
from hypothesis.stateful import rule

from builds.steps.actions import jobs, links
from garage.models import Membership, Vehicle
from tests.property.car_works import BONDED, PAINTED, PAINTED_JOINT, STEP, Work

# The maker's time as somebody writes it down, or nothing.
SAID = [None, timedelta(hours=2), timedelta(days=5)]
COATS = [("glass", BONDED), ("body", PAINTED_JOINT), ("brakes", PAINTED), ("body", PAINTED)]
# Until when the maker's time is asked for where nobody has said it. Common practice, no source.
ASKED = {BONDED: timedelta(days=3), PAINTED: timedelta(days=7), PAINTED_JOINT: timedelta(days=7)}
WAITS = [timedelta(minutes=20), timedelta(hours=1), timedelta(days=4), timedelta(days=8)]


class Cured:
    car: Vehicle
    people: dict[str, Membership]
    at: datetime
    works: list[Work]

    @rule(coat=st.sampled_from(COATS), said=st.sampled_from(SAID))
    def put_on(self, coat, said) -> None:
        """Written down, and with its time what comes after it."""
        system, kind = coat
        told = {"by": self.people["Ines"], "at": self.at + STEP, "work": (1, 2, 3)}
        row = jobs.add(self.car, title=f"Work {len(self.works)}", systems=[system], kinds=[kind], **told)
        if said:
            after = jobs.add(self.car, title="Wipe it", systems=["body"], rank="wanted", **told)
            links.add(row, after, wait_minutes=said // timedelta(minutes=1), why="the maker's time")
        self.at += STEP
        self.works.append(Work(row, system, "needed", [kind], wait=said))

    @rule(time=st.sampled_from(WAITS))
    def leave_alone(self, time) -> None:
        self.at += time

    def cures_until(self) -> list[datetime]:
        """When it is over, of all that was finished."""
        return [
            work.left + (work.wait or max(ASKED[kind] for kind in work.kinds if kind in ASKED))
            for work in self.works
            if work.state == "done" and work.left and self.is_loaded(work)
        ]

    @staticmethod
    def is_loaded(work: Work) -> bool:
        """Paint on the skin carries nothing."""
        return bool({BONDED, PAINTED_JOINT} & set(work.kinds)) or (PAINTED in work.kinds and work.system == "brakes")

    def wait_for_cures(self) -> None:
        self.at = max([self.at, *self.cures_until()])

    def cured_stops(self) -> list[str]:
        return ["something cures"] if any(until > self.at for until in self.cures_until()) else []
