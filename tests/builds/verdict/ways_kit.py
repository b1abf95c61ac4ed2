"""What tests of ways to a false verdict share: work written down on Moth, all of it read again, what is said."""

from datetime import timedelta

from builds.steps.actions import jobs
from builds.verdict.facts.verdict import verdict_of
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import KINDS, tick_all
from tests.factories import NOW

HOUR, MINUTE, DAY = timedelta(hours=1), timedelta(minutes=1), timedelta(days=1)
WORK = (30, 60, 90)


def written(car, cast, title="Replace the tie rod", **more):
    told = {"systems": ["steering"], "kinds": ["steering_arm"], **more}
    return jobs.add(car, by=cast.helper, at=NOW, title=title, work=WORK, **told)


def all_read(car, cast, at, **more):
    for kind in KINDS:
        take(car, kind, cast.owner, at=at, **more)
    tick_all(cast, at)


def said(car, at):
    return " ".join(reason.sentence for reason in verdict_of(car, at).reasons)
