"""Work written down and finished on a car, the job that measures again, and what that waits for."""

from datetime import timedelta

from builds.steps.actions import jobs, steps
from builds.work.models.job import Job
from builds.work.models.link import Link
from tests.factories import NOW

HOUR = timedelta(hours=1)


def add(car, by, title, *kinds, **more):
    return jobs.add(car, by=by, at=NOW + HOUR, title=title, work=(30, 60, 90), kinds=list(kinds), **more)


def finish(job, by, hours=2):
    steps.finish(job, by=by, at=NOW + hours * HOUR)


def again(car):
    return list(Job.objects.on(car).taking_again().open())


def before(job):
    return set(Link.objects.filter(after=job).values_list("before__title", flat=True))
