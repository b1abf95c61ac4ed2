"""Work on a car as it was told: what the second telling of the rules keeps of each job."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta

from builds.work.models.job import Job

STEP = timedelta(minutes=10)
WHEEL_OFF, OPENED = "wheel_off", "hydraulics_opened"
BONDED, PAINTED, PAINTED_JOINT = "glass_bonding", "paint", "paint_under_joint"


@dataclass
class Work:
    """A job as it was told: whose hands were on it, since when and until when, and when somebody else looked."""

    row: Job
    system: str
    rank: str
    kinds: list[str]
    hands: set[str] = field(default_factory=set)
    state: str = "open"
    begun: datetime | None = None
    left: datetime | None = None
    looked: datetime | None = None
    on_word: str = ""
    holder: str = ""
    strips: bool = False
    wait: timedelta | None = None

    @property
    def safety(self) -> bool:
        """What takes a wheel off or opens the brakes is safety work by itself, and stays it."""
        return self.system == "brakes" or self.rank == "safety" or bool({WHEEL_OFF, OPENED} & set(self.kinds))

    @property
    def apart(self) -> bool:
        """The car is stripped from when hands first went to it until it is done."""
        return self.strips and bool(self.hands) and self.state != "done"

    def left_after(self, moment: datetime) -> bool:
        return self.state == "in hand" or (self.left is not None and self.left > moment)


@dataclass
class Look:
    """A moment and a hand."""

    at: datetime
    by: str
