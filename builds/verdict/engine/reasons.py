"""The rules: each reads the facts of a car by itself and yields what stands in the way."""

from collections.abc import Callable, Iterator

from builds.readings.engine.kinds_touch import touched
from builds.verdict.engine.facts import Facts, JobFact, StripFact
from builds.verdict.engine.record_rules import RECORD_RULES
from builds.verdict.engine.severity import Reason, Severity, how_soon

LEFT_LOOSE = {
    "open": "{} was begun and stands open again: take its joints as loose.",
    "in_hand": "{} is in hand: take its joints as loose.",
    "waiting": "{} was put down half done: take its joints as loose.",
    "held": "{} is held half done: take its joints as loose.",
}
LOOKED_FOR = "{} is done, and waits for a second pair of eyes: take its joints as loose."
GEAR_OFF = "{} came off, and {} is not done."
OR_WHOLE = ", or have the owner say why the car is as it was"
NOT_BACK = "Fit it, or have the owner say why the car does without it."
STANDING = {
    "stands": "The car is on stands.",
    "rolling": "The car is rolling, not driveable.",
}


def _soon(job: JobFact) -> int:
    return how_soon(touched(job.systems, job.kinds), safety=job.safety)


def _not_back(job: JobFact) -> str:
    return f"{job.off} came off and is not back on: {job.called} was dropped." if job.off else ""


def _loose(facts: Facts) -> Iterator[Reason]:
    for job in facts.jobs:
        if not job.safety or not job.opens:
            continue
        if job.gear_off:
            yield Reason(
                Severity.LOOSE,
                GEAR_OFF.format(job.gear_off, job.called),
                "Fit one and have it signed.",
                "job",
                job.id,
                soon=_soon(job),
            )
        elif job.begun:
            yield Reason(
                Severity.LOOSE,
                (LOOKED_FOR if job.looked_for else LEFT_LOOSE[job.state]).format(job.called),
                "Have it looked at and signed." if job.looked_for else "Finish it and have it signed.",
                "job",
                job.id,
                soon=_soon(job),
            )
        elif job.left_half_done:
            yield Reason(
                Severity.LOOSE,
                _not_back(job) or f"{job.called} was begun and dropped: nobody signed that the car is whole again.",
                NOT_BACK if job.off else f"Reopen it, finish it and have it signed{OR_WHOLE}.",
                "job",
                job.id,
                soon=_soon(job),
            )


def _stripped(facts: Facts) -> Iterator[Reason]:
    """Said once of two pieces of work that strip a car in one place until the same wheels go on."""
    jobs, told = {job.id: job for job in facts.jobs}, set[Reason]()
    for strip in facts.strips:
        first, last = jobs[strip.first], jobs[strip.last]
        begun = first.worked or first.state in ("in_hand", "done", "signed")
        if begun and last.state not in ("done", "signed") and (reason := _strip_reason(strip, last)) not in told:
            told.add(reason)
            yield reason


def _strip_reason(strip: StripFact, last: JobFact) -> Reason:
    dropped = last.state == "dropped"
    until = f"until {last.called} is done{', which was dropped' if dropped else ''}"
    return Reason(
        Severity.STRIPPED,
        f"Stripped {until}. {strip.station} was freed: {strip.freed.rstrip('.')}."
        if strip.freed
        else f"Stripped in {strip.station}. It stays there {until}.",
        "Reopen it and finish it." if dropped else "Put the car together again.",
        "job",
        last.id,
    )


def _hold_points(facts: Facts) -> Iterator[Reason]:
    jobs = {job.id: job for job in facts.jobs}
    for hold in facts.holds:
        job = jobs[hold.job]
        if job.begun or job.left_half_done or job.state in ("done", "signed"):
            yield Reason(
                Severity.HOLD_POINT,
                f"Hold point not signed on {job.called}: {hold.what}",
                "A second person looks and signs.",
                "job",
                job.id,
                soon=_soon(job),
            )
        elif job.unfinished and job.counts_as == "wanted":
            yield Reason(
                Severity.HOLD_AHEAD,
                f"Hold point ahead on {job.called}: {hold.what}",
                "Do the job and have the point signed, or drop the job.",
                "job",
                job.id,
                soon=_soon(job),
            )


def _unsigned(facts: Facts) -> Iterator[Reason]:
    for job in facts.jobs:
        if job.state == "done" and job.wants_eyes and not job.covered:
            yield Reason(
                Severity.UNSIGNED,
                f"{job.called} is done, but nobody has signed it.",
                "Have it looked at and signed.",
                "job",
                job.id,
                soon=_soon(job),
            )


def _open_jobs(facts: Facts) -> Iterator[Reason]:
    points: dict[int, int] = {}
    for hold in facts.holds:
        points[hold.job] = points.get(hold.job, 0) + 1
    for job in facts.jobs:
        if not job.unfinished or not job.must_do or (job.safety and job.begun and job.opens):
            continue
        rank = job.counts_as
        count = 0 if job.begun else points.get(job.id, 0)
        ahead = f" ({count} hold point{'s' if count > 1 else ''} on the way)" if count else ""
        yield Reason(
            _how_bad(job),
            f"Open {rank} job: {job.called}{ahead}",
            "Do it and have it signed." if job.id in points or (job.wants_eyes and not job.covered) else "Do it.",
            "job",
            job.id,
            soon=_soon(job),
        )


def _how_bad(job: JobFact) -> Severity:
    """A fault that could hurt somebody is there before anybody works on it; work that is planned is not."""
    if job.counts_as != "safety":
        return Severity.NEEDED
    return Severity.FAULT if job.fault else Severity.SAFETY


def _dropped(facts: Facts) -> Iterator[Reason]:
    """Half-done work that hurts nobody; the rest is loose."""
    for job in facts.jobs:
        if job.left_half_done and job.opens and not job.safety and job.must_do:
            yield Reason(
                Severity.NEEDED,
                _not_back(job)
                or f"{job.called} was begun and dropped half done: nobody has said that the car is as it was.",
                NOT_BACK if job.off else f"Reopen it and finish it{OR_WHOLE}.",
                "job",
                job.id,
                soon=_soon(job),
            )


def _apart(facts: Facts) -> Iterator[Reason]:
    """Work that the car does without, but not half done: an engine on its hoist, a radiator off."""
    for job in facts.jobs:
        if job.apart and not (job.must_do or job.safety or job.unsaid) and (job.begun or job.left_half_done):
            yield Reason(
                Severity.NEEDED,
                f"{job.called} was begun and is not finished: something of it is off the car.",
                f"Reopen it and finish it{OR_WHOLE}." if job.state == "dropped" else "Finish it.",
                "job",
                job.id,
                soon=_soon(job),
            )


def _unsaid(facts: Facts) -> Iterator[Reason]:
    """Work that is no reason by its rank may touch anything as long as nobody says what; begun, it may have opened it.

    Nobody writes it down so any more; what stands so was written down before.
    """
    for job in facts.jobs:
        if job.unsaid and job.counts_as == "wanted" and (job.unfinished or job.left_half_done):
            begun = job.begun or job.left_half_done
            yield Reason(
                Severity.NOT_KNOWN,
                f"{job.called} {'was begun' if begun else 'is to be done'}, and nobody has said what it touches.",
                "Say what it touches, or finish it and say what was opened.",
                "job",
                job.id,
                soon=_soon(job),
            )


def _standing(facts: Facts) -> Iterator[Reason]:
    if facts.standing != "driveable":
        yield Reason(
            Severity.STANDING,
            STANDING[facts.standing],
            "When it stands on its wheels and can be driven, mark it driveable.",
            "vehicle",
            facts.vehicle,
        )


# Each rule reads the facts by itself; a new kind of fact is a field above and a rule here.
RULES: tuple[Callable[[Facts], Iterator[Reason]], ...] = (
    _loose,
    _stripped,
    _hold_points,
    _unsigned,
    _open_jobs,
    _dropped,
    _apart,
    _unsaid,
    _standing,
    *RECORD_RULES,
)
