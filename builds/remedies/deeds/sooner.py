"""What work begins sooner when some of the rows that a plan rests on are others."""

from builds.plan.facts import jobs as plan_jobs
from builds.plan.facts import links as plan_links
from builds.plan.facts.rows import PlanRows
from builds.planner.axis import clip
from builds.planner.problem import Job
from builds.remedies.deeds.deed import Deed
from builds.remedies.engine.changes.sooner import Sooner
from builds.remedies.facts.late_car import LateCar


def sooner(car: LateCar, deeds: tuple[Deed, ...], trouble: float, rows: PlanRows) -> Sooner | None:
    """What `rows`, as they are once the deeds are done, let begin at another time; None for nothing.

    `trouble` is counted in hours.
    """
    slots = car.problem.slots
    now_jobs = {job.id: job for job in car.problem.jobs}
    now_links = {(link.before, link.after): link for link in car.problem.links}
    hours = {person.id: clip(person.windows, slots) for person in car.problem.people}
    jobs, _ = plan_jobs.jobs(rows, car.clock, slots, hours)
    links = plan_links.links(rows, slots)
    moved_jobs = tuple(job for job in jobs if _release(job) != _release(now_jobs[job.id]))
    moved_links = tuple(link for link in links if link.ready != now_links[link.before, link.after].ready)
    if not moved_jobs and not moved_links:
        return None
    return Sooner(deeds[0].kind, trouble, moved_jobs, moved_links, behind=deeds)


def _release(job: Job) -> tuple[object, ...]:
    return job.earliest, job.waits_for, job.windows
