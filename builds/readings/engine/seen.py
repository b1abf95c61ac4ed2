"""What somebody saw of a car that is not as it was left: older marks, ticks and readings of it hold no more."""

from dataclasses import dataclass, field
from datetime import datetime, tzinfo

from builds.readings.engine.amiss import SYSTEMS_READ
from builds.readings.engine.seen_said import untrue_by_item, untrue_since
from builds.readings.engine.vocabulary import READINGS, resting_on
from builds.readings.engine.void import FOUND, READ_FAILED, READ_OUT, FinishedWork
from builds.work.engine.car_work import CarWork

SEEN_WORDS = {
    FOUND: "“{}” was found on {}.",
    READ_OUT: "{} was read out of its limits on {}.",
    READ_FAILED: "{} failed on {}.",
}
# A reading that is out, or failed, says of joints that work of these kinds opens that they are not as they were
# marked: somebody set it by them, or torqued them. Common practice, no source.
_OF_JOINTS: dict[str, str] = {
    "wheel_torque": "wheel_off",
    "bearing_play": "hub_opened",
    "camber": "camber_front front_trim rear_link rear_trim",
    "caster": "caster front_trim",
    "toe_rear": "rear_link rear_trim",
    "toe_front": "jam_nut steering_arm joint_opened",
    "jam_nuts": "jam_nut rear_link rear_trim",
    "joint_torque": "joint_opened",
    "joint_pins": "pin_out",
    "belt_torque": "seat_or_belt_moved",
    "brake_bleed": "hydraulics_opened",
}
# Of both systems it is read on only the one whose joints set it.
_SET_ON = {"toe_front": ("steering",), "toe_rear": ("suspension",)}
# The readings (slugs) of which one that is out says something of what is older.
TELLING = tuple(slug for slug in READINGS if slug in _OF_JOINTS or resting_on([slug]) > {slug})


@dataclass(frozen=True, slots=True)
class Sight:
    """`what` somebody saw, `how` (an end of `void`), of which systems (slugs).

    Joints that these `kinds` of work open were marked for nothing before it, and `untrue` readings (slugs) say no
    more what they said. `job` is its id where a job was opened for it.
    """

    what: str
    how: str
    at: datetime
    systems: tuple[str, ...] = ()
    kinds: frozenset[str] = frozenset()
    untrue: frozenset[str] = field(default=frozenset())
    job: int = 0

    def work(self, zone: tzinfo) -> CarWork:
        """As joints and ticks take it, by the clock of that zone."""
        local = self.at.astimezone(zone)
        words = SEEN_WORDS[self.how].format(self.what, f"{local.day} {local:%b}")
        return CarWork(self.what, frozenset(self.systems), self.kinds, local, words=words, seen=True)

    @property
    def voiding(self) -> FinishedWork:
        """As readings take it."""
        return FinishedWork(self.job, self.what, (), self.at, end=self.how, spoils=self.untrue)


def seen_out(slug: str, at: datetime, *, failed: bool) -> Sight:
    """That a reading (slug) was out of its limits, or failed; what rests on it was taken on something else."""
    kinds, rests = frozenset(_OF_JOINTS.get(slug, "").split()), resting_on([slug]) - {slug}
    how = READ_FAILED if failed else READ_OUT
    return Sight(READINGS[slug].label, how, at, _SET_ON.get(slug) or SYSTEMS_READ.get(slug, ()), kinds, rests)


def seen_by_somebody(line: str, at: datetime, systems: tuple[str, ...], job: int) -> Sight | None:
    """That somebody saw what his words say; nothing where they say nothing of what was left."""
    kinds, untrue = untrue_since(line)
    return Sight(line, FOUND, at, systems, kinds, resting_on(untrue), job) if kinds or untrue else None


def seen_failed(text: str, note: str, at: datetime, systems: tuple[str, ...], kinds: frozenset[str]) -> Sight | None:
    """That an item of a list failed, with that note."""
    opened, untrue = untrue_by_item(text, note, kinds)
    return Sight(note or text, FOUND, at, systems, opened, resting_on(untrue)) if opened or untrue else None
