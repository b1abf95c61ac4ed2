"""What is on record about a car besides its jobs: joints, readings, gear, parts, scrutineering."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class JointFact:
    """A joint that is not as it must be: loose, unsigned, due for a re-torque, or slack.

    Slack is a joint that is loose and hurts nobody. Of a weld that is tacked or uninspected, `id`
    and `name` are those of the job that comes next.

    `words` says more in one sentence, such as which job opened it; may be empty.
    """

    id: int
    name: str
    state: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class ReadingFact:
    """A required reading that does not stand: missing, void, out (of its limits), failed or note.

    A note lacks conditions. Not known is what was taken before the car ran (`ran`; `asked` while
    nobody has said whether it did), is `old`, or has `no_limit` to be judged by: of all those one
    fact, without a slug. `words` names the job and the day for a void one, else may be empty.
    """

    slug: str
    label: str
    state: str
    words: str = ""


@dataclass(frozen=True, slots=True)
class PartFact:
    """A finished job whose part was never fitted, or was fitted though it does not fit."""

    job: int
    title: str
    what: str
    state: str


@dataclass(frozen=True, slots=True)
class CheckFact:
    """An item of the event's scrutineering list that is open or has failed; `id` is the entry's.

    Items that nobody has looked at may stand together as one.
    """

    id: int
    name: str
    state: str
    words: str = ""
