"""Jobs that find no place in the plan."""

from dataclasses import dataclass

from django.urls import reverse

from builds.plan.engine.ids import pk_of
from builds.plan.facts.wall import Wall


@dataclass(frozen=True)
class LeftOut:
    """A job without a place, and what to do about it."""

    title: str
    url: str
    car: str
    tape: str
    rank: str
    why: str


def left_out(wall: Wall) -> tuple[LeftOut, ...]:
    """Those that are still open."""
    return tuple(
        LeftOut(
            job.title,
            reverse("job_page", args=[job.pk]),
            job.vehicle.name,
            job.vehicle.tape,
            job.rank,
            unplaced.why,
        )
        for unplaced in wall.plan.unplaced.values()
        if (job := wall.rows.work.jobs.get(pk_of(unplaced.id)))
    )
