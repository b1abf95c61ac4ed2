"""Jobs that find no place in the plan."""

from dataclasses import dataclass

from django.urls import reverse

from builds.plan.engine.ids import pk_of
from builds.plan.facts.wall import Wall


@dataclass(frozen=True)
class LeftOut:
    """A job without a place, and what to do about it; `follows` where it only waits for another without one."""

    title: str
    url: str
    car: str
    tape: str
    rank: str
    why: str
    follows: bool


def left_out(wall: Wall) -> tuple[LeftOut, ...]:
    """Those that are still open; first what has a reason of its own."""
    without = {pk_of(name) for name in wall.plan.unplaced}
    followers = {link.after for link in wall.rows.work.links if link.before in without}
    jobs = [
        LeftOut(
            job.title,
            reverse("job_page", args=[job.pk]),
            job.vehicle.name,
            job.vehicle.tape,
            job.rank,
            unplaced.why,
            job.pk in followers,
        )
        for unplaced in wall.plan.unplaced.values()
        if (job := wall.rows.work.jobs.get(pk_of(unplaced.id)))
    ]
    return tuple(sorted(jobs, key=lambda job: job.follows))
