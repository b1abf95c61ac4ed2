"""The rules for what is on record: joints, readings, gear, parts and the scrutineering list."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TypeVar

from builds.scrutineering.engine.scrutineering import why_behind
from builds.verdict.engine.facts import Facts
from builds.verdict.engine.records import LEFT_OUT, STANDS, CheckFact, JointFact, ReadingFact
from builds.verdict.engine.severity import Reason, Severity, how_soon
from garage.engine.moments import date_words, dated_words
from garage.engine.systems import SAFETY_SYSTEMS

Record = TypeVar("Record", JointFact, ReadingFact, CheckFact)

WELD = {
    "tacked": (Severity.LOOSE, "A weld is only tacked", "Weld it out and have it inspected."),
    "uninspected": (Severity.UNSIGNED, "A weld is not inspected", "Have it looked at and crack-tested."),
}
JOINT = {
    "loose": (Severity.LOOSE, "Loose: {}.", "Tighten it to its figure and have it signed."),
    "void": (
        Severity.UNSIGNED,
        "Its mark holds no more: {}.",
        "Tighten it to its figure, mark it and have it signed.",
    ),
    "off": (
        Severity.READING,
        "Not at its figure: {}.",
        "Tighten it to its figure and mark it, or have the owner put the figure right.",
    ),
    "unsigned": (Severity.UNSIGNED, "Marked, not signed: {}.", "Have it looked at and signed."),
    "slack": (Severity.NEEDED, "No torque mark: {}.", "Tighten it to its figure and mark it."),
    "opened": (Severity.UNSIGNED, "To be marked again: {}.", "Tighten it to its figure and have it signed."),
    "due": (Severity.SAFETY, "Due for its re-torque: {}.", "Check its torque and mark it."),
    "asked": (
        Severity.NOT_KNOWN,
        "Not known to be tight: {}.",
        "Check its torque and mark it, or say that the car did not run.",
    ),
    "ahead": (Severity.NOT_KNOWN, "Not known to be tight: {}.", "Check its torque, mark it and have it signed."),
    "wrench": (
        Severity.NOT_KNOWN,
        "Not known to be tight, torqued with what was out of its date: {}.",
        "Check its torque with what is in date and mark it.",
    ),
}
READING = {
    "missing": ("Not taken yet: {}.", "Measure it."),
    "void": ("Void: {}.", "Measure it again."),
    "out": ("Out of its limits: {}.", "Set it, then measure again."),
    "failed": ("Failed: {}.", "Mend it, then check it again."),
    "note": ("Counts as a note only: {}.", "Measure again with its conditions."),
    "ran": ("Not known since the car ran: {}.", "Measure it again."),
    "asked": ("Not known: {}.", "Measure it again, or say that the car did not run."),
    "no_limit": ("No limit says whether it is right: {}.", "Accept the limits that are offered, or write your own."),
    "old": ("Too old to count: {}.", "Measure it again."),
    "ahead": ("Not known: {}.", "Measure it again."),
    "instrument": ("Not known, taken with what was out of its date: {}.", "Measure it again with what is in date."),
}
READING_NOT_KNOWN = ("ran", "asked", "old", "ahead", "instrument", "no_limit")
GEAR = {
    "out": ("Out of date on the day: {}.", "Replace or recertify it, then enter its date."),
    "due": ("Due before the event is over: {}.", "Renew it, with a job from its page."),
    "undated": ("Not known to be in date: {}.", "Read its label and enter what it says."),
    "struck": ("Went through a crash: {}.", "Replace it, or have the owner say why it is good."),
    "missing": ("Not on record: {}.", "Enter it with its label and date."),
}
PART = {
    "unfitted": ("“{title}” is done, but never fitted: {what}.", "Fit it, or say it is at hand."),
    "misfit": ("“{title}” went on with {what}, which does not fit.", "Fit one that does."),
}
DOUBTED = {
    "scrap": "{} is on it, and is scrap",
    "repair": "{} is on it, and is to be repaired",
    "unknown": "{} is on it, and nobody knows its history",
}
CHECK = {
    "open": ("Not ticked: {}.", "Look at it and tick it, or say why it does not apply."),
    "failed": ("Failed: {}.", "Mend it and tick it."),
}
STALE = "Bring the list up to date, then look at what is new on it."


# So many items that nobody has looked at are named; of more it is said how many they are.
NAMED = 5


def _with(sentence: str, words: str) -> str:
    return f"{sentence} {words}".strip()


def _fallen(records: Iterable[Record]) -> Iterator[Record]:
    """Those that are not as they must be."""
    return (record for record in records if record.state not in (STANDS, LEFT_OUT))


def welds(facts: Facts) -> Iterator[Reason]:
    for weld in facts.welds:
        severity, stands, clears = WELD[weld.state]
        follows = f"no job comes next. “{weld.title}” was the last of it." if weld.was_last else None
        yield Reason(severity, f"{stands}: {follows or f'“{weld.title}” comes next.'}", clears, "job", weld.job)


def joints(facts: Facts) -> Iterator[Reason]:
    for joint in _fallen(facts.joints):
        severity, sentence, clears = JOINT[joint.state]
        words = _with(sentence.format(joint.name), joint.words)
        yield Reason(severity, words, clears, "joint", facts.vehicle)


def readings(facts: Facts) -> Iterator[Reason]:
    for reading in _fallen(facts.readings):
        sentence, clears = READING[reading.state]
        words = _with(sentence.format(reading.label), reading.words)
        severity = Severity.NOT_KNOWN if reading.state in READING_NOT_KNOWN else Severity.READING
        about = "limit" if reading.state == "no_limit" else "reading"
        yield Reason(severity, words, clears, about, facts.vehicle)


def gear(facts: Facts) -> Iterator[Reason]:
    for gear_item in facts.gear:
        sentence, clears = GEAR[gear_item.state]
        words = _with(sentence.format(gear_item.name), gear_item.words)
        about = ("gear", gear_item.id) if gear_item.id else ("gear_needed", facts.vehicle)
        yield Reason(Severity.GEAR, words, clears, *about)


def parts(facts: Facts) -> Iterator[Reason]:
    for part in facts.parts:
        sentence, clears = PART[part.state]
        words = sentence.format(title=part.title, what=part.what)
        severity = Severity.PART if SAFETY_SYSTEMS.isdisjoint(part.off) else Severity.FAULT
        yield Reason(severity, words, clears, "job", part.job)


def doubted(facts: Facts) -> Iterator[Reason]:
    """Of a part that nobody gets hurt by, an unknown history is no reason. Common practice, no source."""
    for part in facts.doubted:
        safety, unknown = not SAFETY_SYSTEMS.isdisjoint(part.systems), part.state == "unknown"
        if unknown and not safety:
            continue
        said = f": {part.by} said so on {date_words(part.at.date())}" if part.by and part.at else ""
        severity = Severity.NOT_KNOWN if unknown else Severity.FAULT if safety else Severity.PART
        words, soon = f"{DOUBTED[part.state].format(part.name)}{said}.", how_soon(part.systems, safety=safety)
        yield Reason(
            severity, words, "Fit another, or have the owner say that it is good.", "part", part.part, soon=soon
        )


def checks(facts: Facts) -> Iterator[Reason]:
    if stale := facts.stale_list:
        words = _with("Not ticked: the list itself.", why_behind(stale.made_by, stale.looked_at_by, stale.lacks))
        yield Reason(Severity.CHECK, words, STALE, "check", stale.entry)
    fallen = tuple(_fallen(facts.checks))
    unseen = [check for check in fallen if _unseen(check)]
    many = len(unseen) > NAMED
    yield from (_check(check) for check in fallen if not (many and _unseen(check)))
    if many:
        count = f"{len(unseen)} of the {len(facts.checks)} items of the scrutineering list"
        yield _check(replace(unseen[0], name=count))


def _unseen(check: CheckFact) -> bool:
    return check.state == "open" and not check.words


def _check(check: CheckFact) -> Reason:
    sentence, clears = CHECK[check.state]
    severity = Severity.FAILED if check.state == "failed" else Severity.CHECK
    return Reason(severity, _with(sentence.format(check.name), check.words), clears, "check", check.id)


def cures(facts: Facts) -> Iterator[Reason]:
    """Trade rule 30: what cures is not loaded before its time, and bonded glass waits for the maker's."""
    for cure in (cure for cure in facts.cures if cure.loaded):
        moment = dated_words(cure.until, cure.until.tzinfo) if cure.until and cure.until.tzinfo else ""
        if cure.unsaid:
            words = f"“{cure.title}” cures, and nobody has said how long: mostly until {moment}."
            clears = "Write the maker's time down as a wait behind it, or leave the car alone until then."
        else:
            until = f"until {moment}" if moment else "for longer than anybody can say: it is too cold"
            words, clears = f"“{cure.title}” cures {until}.", "Leave the car alone until then."
        yield Reason(Severity.NOT_KNOWN if cure.unsaid else Severity.NEEDED, words, clears, "job", cure.job)


def ahead(facts: Facts) -> Iterator[Reason]:
    for signed in facts.ahead:
        words = f"Not known to be looked at: “{signed.title}” was signed for a day that is still to come."
        yield Reason(Severity.NOT_KNOWN, words, "Open it again, finish it and have it signed.", "job", signed.job)


RECORD_RULES = (welds, joints, readings, gear, parts, doubted, cures, ahead, checks)
