"""What is on record about a car besides its jobs: joints, readings, gear, parts, scrutineering."""

from dataclasses import dataclass
from datetime import datetime

# As it must be, and no reason; planned work can undo it.
STANDS = "stands"
# An item that the owner said does not apply: no reason, and said beside the verdict.
LEFT_OUT = "left_out"


@dataclass(frozen=True, slots=True)
class JointFact:
    """A joint that stands, or is not as it must be: loose, void, off, unsigned, due for a re-torque, asked, or slack.

    Void is a mark that holds no more by what was seen since, off one that is not at its figure. Asked is due if the
    car ran, which nobody has said. On a day ahead, opened is what planned work opens.
    Slack is a joint that is loose and hurts nobody.

    `words` says more in one sentence, such as which job opened it; may be empty. `opened_by` and
    `systems` say which kinds of work (slugs) open it, where; `since` is its last mark.
    """

    id: int
    name: str
    state: str
    words: str = ""
    opened_by: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()
    since: datetime | None = None


@dataclass(frozen=True, slots=True)
class WeldFact:
    """A weld that is tacked or uninspected, with the job that comes next on it.

    `was_last` where none does: the job is then the last one that was.
    """

    job: int
    title: str
    state: str
    was_last: bool = False


@dataclass(frozen=True, slots=True)
class ReadingFact:
    """A required reading that stands, or does not: missing, void, out (of its limits), failed or note.

    A note lacks conditions. Not known is what was taken before the car ran (`ran`; `asked` while
    nobody has said whether it did), is `old`, was taken with an `instrument` out of its date, or has
    `no_limit` to be judged by: of all those one fact, without a slug. `words` names the job and the day for a void
    one, else may be empty. `follows` is the reading (slug) that it is void with, where it is the garage's own;
    `since` is when it was taken.
    """

    slug: str
    label: str
    state: str
    words: str = ""
    follows: str = ""
    since: datetime | None = None


@dataclass(frozen=True, slots=True)
class PartFact:
    """A finished job whose part was never fitted, or was fitted though it does not fit.

    `off` holds the systems (slugs) of one that came off the car for it and is not back on.
    """

    job: int
    title: str
    what: str
    state: str
    off: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DoubtFact:
    """A part (its id and name, its `systems`) that is on the car and would not be fitted so: it is scrap, to repair,
    or of unknown history since it was fitted. `by` (a name) said so `at` a moment, in the garage's own zone.
    """

    part: int
    name: str
    state: str
    systems: tuple[str, ...] = ()
    by: str = ""
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class CureFact:
    """A finished job (its id and title) of which something cures still, `until` a moment in the garage's own time.

    None where it is too cold to say. `unsaid` where nobody has said how long, and it is what such work mostly
    takes; `by_then` whether it is over when the event's gates open; `loaded` unless it lies on the skin alone.
    """

    job: int
    title: str
    until: datetime | None
    unsaid: bool = False
    by_then: bool = False
    loaded: bool = True


@dataclass(frozen=True, slots=True)
class CheckFact:
    """An item of the event's scrutineering list: it stands, is open, was left out or has failed; `id` is the entry's.

    Open with `words` is one that was ticked, and why that holds no more; `since` is when it was ticked. Work on
    its `systems` or of one of its `kinds` (slugs) touches it.
    """

    id: int
    name: str
    state: str
    words: str = ""
    systems: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    since: datetime | None = None


@dataclass(frozen=True, slots=True)
class StaleList:
    """A scrutineering list (`entry` is its entry's id) that is not the one its event is looked at by now.

    Both are names of organisers' lists; empty is the general one. `lacks` is how many items that list has by now and
    this one has not: its organiser asks for more, or the car has got more.
    """

    entry: int
    made_by: str
    looked_at_by: str
    lacks: int = 0
