"""From facts to a verdict: the sentence, and every reason, worst first."""

from collections import Counter
from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from functools import lru_cache

from builds.verdict.engine.facts import Facts, JobFact
from builds.verdict.engine.on_word import given_up, worded
from builds.verdict.engine.reasons import RULES
from builds.verdict.engine.records import LEFT_OUT
from builds.verdict.engine.severity import Reason, Severity
from garage.engine.systems import SYSTEM_LABELS
from garage.engine.words import listed_in_words

# What each car must have on record. Joints stand in the jobs and hold points already, so that a car may have none.
# Of the list nothing is known until it is made; of the others until somebody says which the car must have: what is
# written down of them may well stand, and says nothing of what is missing.
LIST = "checks"
NOT_RECORDED = ("readings", "gear", "parts", LIST)

WHENEVER = datetime(1, 1, 1, tzinfo=UTC)

WORDS = {"fit": "fit to run", "not_fit": "not fit", "not_known": "not known"}


@dataclass(frozen=True, slots=True)
class Verdict:
    """What was true `at` a moment: `state` is fit, not_fit or not_known.

    `lowered` says which ranks were lowered, and why, `on_word` which work is said to have opened nothing, where
    something rests on that, `without` which parts are off it by the owner's word; `besides` these parts, what nobody
    else has looked at, how many items of its list were left out, what nobody asks for, how much is still to do or
    to mend below its rank, how much is done that opened nothing, and how much was `dropped` without being done.
    """

    at: datetime
    state: str
    sentence: str
    reasons: tuple[Reason, ...] = ()
    not_recorded: str = ""
    lowered: tuple[str, ...] = ()
    besides: str = ""
    on_word: tuple[str, ...] = ()
    dropped: tuple[str, ...] = ()
    without: tuple[str, ...] = ()

    @property
    def do_not_drive_reasons(self) -> tuple[Reason, ...]:
        return tuple(reason for reason in self.reasons if reason.severity <= Severity.FAULT)

    @property
    def do_not_drive(self) -> bool:
        return bool(self.do_not_drive_reasons)

    @property
    def word(self) -> str:
        """Shorter than its sentence, for one line among others."""
        return "do not drive" if self.do_not_drive else WORDS[self.state]


def verdict(facts: Facts) -> Verdict:
    """Whether the car is fit to run, with every reason, worst first; equally bad ones by `how_soon`, then as given.

    Fit only when no rule finds a reason and nothing is unknown; not known when all that is found
    is that something is not known. No date, rank or role plays a part. KeyError when a hold point
    or a strip names a job that is not among the facts.
    Source: the trade's own rules, common practice, no source.
    """
    return replace(_judged(replace(facts, at=WHENEVER)), at=facts.at)


@lru_cache(maxsize=256)
def _judged(facts: Facts) -> Verdict:
    """The same facts are judged once, however many places of a page ask: no rule asks when it is."""
    reasons = tuple(
        sorted(
            (reason for rule in RULES for reason in rule(facts)),
            key=lambda reason: (reason.severity, reason.soon),
        )
    )
    words, dropped = worded(facts), given_up(facts)
    said = [_without(facts), _alone(facts.alone), _left_out(facts), _unlooked(facts), _reads_nothing(facts)]
    said += [_put_off(facts), _left_faulty(facts), _still_cures(facts), _opened_nothing(words), _not_done(dropped)]
    missing, besides = "", "; ".join(filter(None, said))
    if facts.unknown:
        missing = _missing(facts.unknown)
    if any(reason.severity != Severity.NOT_KNOWN for reason in reasons):
        state, sentence = "not_fit", f"Not fit to run: {_things(len(reasons), 'stand')} in the way"
    elif reasons or missing:
        doubts = f"{_things(len(reasons), 'are')} not known" if reasons else ""
        state, sentence = "not_known", f"Not known to be fit: {' and '.join(filter(None, [doubts, missing]))}"
    else:
        state, sentence = "fit", "; ".join(filter(None, ["Fit to run", besides]))
    return Verdict(
        facts.at,
        state,
        sentence,
        reasons,
        not_recorded=f"{missing[0].upper()}{missing[1:]}." if missing else "",
        lowered=(
            *(
                f"{job.called} ranks {job.rank}, not {job.lowered_from}: {job.lowered_because.strip()}"
                for job in facts.jobs
                if job.lowered_from and job.state not in ("signed", "dropped")
            ),
            *(
                f"{job.called} ranks wanted, and is to be mended."
                for job in facts.jobs
                if job.left_faulty and not job.lowered_from
            ),
        ),
        besides=f"{besides[0].upper()}{besides[1:]}." if besides else "",
        on_word=tuple(words.values()),
        dropped=tuple(dropped.values()),
        without=tuple(
            f"{job.off} came off and is not back on: {job.whole_because}" for job in facts.jobs if job.done_without
        ),
    )


def _missing(unknown: Collection[str]) -> str:
    """`nobody has said which readings and gear it must have and its scrutineering list is not made`."""
    which = [name for name in unknown if name != LIST]
    said = [f"nobody has said which {listed_in_words(which)} it must have"] if which else []
    return " and ".join([*said, "its scrutineering list is not made"] if LIST in unknown else said)


def _things(count: int, verb: str) -> str:
    """`2 things stand`, `1 thing is`."""
    one = {"stand": "stands", "are": "is"}
    return f"{count} things {verb}" if count > 1 else f"1 thing {one[verb]}"


def _without(facts: Facts) -> str:
    """`it runs without Roof panel, by the owner's word`; empty where nothing is off it so."""
    off = [job.off for job in facts.jobs if job.done_without]
    return f"it runs without {listed_in_words(off)}, by the owner's word" if off else ""


def _alone(names: Iterable[str]) -> str:
    """`nobody but Ines has looked at 2 points`; empty where somebody else looked at everything."""
    counts = sorted(Counter(names).items())
    said = [f"nobody but {name} has looked at {count} point{'s' * (count > 1)}" for name, count in counts]
    return listed_in_words(said) if said else ""


def _left_out(facts: Facts) -> str:
    """`3 items of its scrutineering list were left out`; empty where everything was looked at."""
    count = sum(check.state == LEFT_OUT for check in facts.checks)
    many = f"{count} items of its scrutineering list were" if count > 1 else "1 item of its scrutineering list was"
    return f"{many} left out" if count else ""


def _put_off(facts: Facts) -> str:
    """`1 safety job is still to do, ranked lower by the owner`; empty where there is none."""
    count = sum(job.lowered and job.unfinished and job.counts_as == "wanted" for job in facts.jobs)
    many = f"{count} safety jobs are" if count > 1 else "1 safety job is"
    return f"{many} still to do, ranked lower by the owner" if count else ""


def _left_faulty(facts: Facts) -> str:
    """`2 faults are still to mend, ranked wanted`; empty where there is none."""
    count = sum(job.left_faulty for job in facts.jobs)
    many = f"{count} faults are" if count > 1 else "1 fault is"
    return f"{many} still to mend, ranked wanted" if count else ""


def _still_cures(facts: Facts) -> str:
    """`“Paint the wing” still cures`; empty where nothing on the skin does: what is loaded is a reason."""
    titles = [f"“{cure.title}”" for cure in facts.cures if not cure.loaded]
    return f"{listed_in_words(titles)} still cure{'s' * (len(titles) == 1)}" if titles else ""


def _unlooked(facts: Facts) -> str:
    """`its scrutineering list says nothing of brakes and suspension`; empty where it does."""
    systems = [SYSTEM_LABELS[slug].lower() for slug in facts.unlooked]
    return f"its scrutineering list says nothing of {listed_in_words(systems)}" if systems else ""


def _reads_nothing(facts: Facts) -> str:
    return "no reading is asked of it" if facts.reads_nothing else ""


def _opened_nothing(jobs: Collection[JobFact]) -> str:
    """`1 safety job was finished as having opened nothing`; empty where nothing rests on that."""
    count, sort = len(jobs), "safety job" if all(job.safety for job in jobs) else "job"
    many = f"{count} {sort}s were" if count > 1 else f"1 {sort} was"
    less = sum(job.opened_less for job in jobs)
    how = "less than was likely" if less == count else "nothing, or less than was likely" if less else "nothing"
    return f"{many} finished as having opened {how}" if count else ""


def _not_done(jobs: Collection[JobFact]) -> str:
    """`1 safety job was dropped without being done`; empty where everything older was looked at again since."""
    count, sort = len(jobs), "safety job" if all(job.safety for job in jobs) else "job"
    many = f"{count} {sort}s were" if count > 1 else f"1 {sort} was"
    return f"{many} dropped without being done" if count else ""
