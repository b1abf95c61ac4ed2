"""The rules for what is on record: joints, readings, gear, parts and the scrutineering list."""

from collections.abc import Iterator

from builds.verdict.engine.facts import Facts
from builds.verdict.engine.severity import Reason, Severity

JOINT = {
    "tacked": (
        Severity.LOOSE,
        "A weld is only tacked: {} comes next.",
        "Weld it out and have it inspected.",
    ),
    "uninspected": (
        Severity.UNSIGNED,
        "A weld is not inspected: {} comes next.",
        "Have it looked at and crack-tested.",
    ),
    "loose": (Severity.LOOSE, "Loose: {}.", "Tighten it to its figure and have it signed."),
    "unsigned": (Severity.UNSIGNED, "Marked, not signed: {}.", "Have it looked at and signed."),
    "slack": (Severity.NEEDED, "No torque mark: {}.", "Tighten it to its figure and mark it."),
    "due": (Severity.SAFETY, "Due for its re-torque: {}.", "Check its torque and mark it."),
}
READING = {
    "missing": ("{} was never taken.", "Take the reading."),
    "void": ("{} is void.", "Measure it again."),
    "out": ("{} is out of tolerance.", "Set it, then measure again."),
    "failed": ("{} failed.", "Mend it, then check it again."),
    "note": ("{} lacks its conditions and counts as a note.", "Measure again with its conditions."),
}
GEAR = {
    "out": ("Out of date on the day: {}.", "Replace or recertify it, then enter its date."),
    "undated": ("Not known to be in date: {}.", "Read its label and enter what it says."),
    "struck": ("Went through a crash: {}.", "Replace it, or have the owner say why it is good."),
    "missing": ("Not on record: {}.", "Enter it with its label and date."),
}
PART = {
    "unfitted": ("{title} is done, but {what} was never fitted.", "Fit it, or say it is at hand."),
    "misfit": ("{title} went on with {what}, which does not fit.", "Fit one that does."),
}
CHECK = {
    "open": ("Not ticked: {}.", "Look at it and tick it, or say why it does not apply."),
    "failed": ("Failed: {}.", "Mend it and tick it."),
}


def _with(sentence: str, words: str) -> str:
    return f"{sentence} {words}".strip()


def joints(facts: Facts) -> Iterator[Reason]:
    for each in facts.joints:
        severity, sentence, clears = JOINT[each.state]
        words = _with(sentence.format(each.name), each.words)
        if each.state in ("tacked", "uninspected"):
            yield Reason(severity, words, clears, "job", each.id)
        else:
            yield Reason(severity, words, clears, "joint", facts.vehicle)


def readings(facts: Facts) -> Iterator[Reason]:
    for each in facts.readings:
        sentence, clears = READING[each.state]
        words = _with(sentence.format(each.label), each.words)
        yield Reason(Severity.READING, words, clears, "reading", facts.vehicle)


def gear(facts: Facts) -> Iterator[Reason]:
    for each in facts.gear:
        sentence, clears = GEAR[each.state]
        words = _with(sentence.format(each.name), each.words)
        about = ("gear", each.id) if each.id else ("gear_needed", facts.vehicle)
        yield Reason(Severity.GEAR, words, clears, *about)


def parts(facts: Facts) -> Iterator[Reason]:
    for each in facts.parts:
        sentence, clears = PART[each.state]
        words = sentence.format(title=each.title, what=each.what)
        yield Reason(Severity.PART, words, clears, "job", each.job)


def checks(facts: Facts) -> Iterator[Reason]:
    for each in facts.checks:
        sentence, clears = CHECK[each.state]
        severity = Severity.FAILED if each.state == "failed" else Severity.CHECK
        yield Reason(severity, _with(sentence.format(each.name), each.words), clears, "check", each.id)


RECORD_RULES = (joints, readings, gear, parts, checks)
