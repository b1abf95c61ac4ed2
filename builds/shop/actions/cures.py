"""A coat whose recoat window has closed is sanded before the next one goes on."""

from datetime import datetime

from django.db import transaction

from builds.cure.engine import Stage
from builds.steps.actions import jobs, links
from builds.work.models.job import TITLE_MOST, Job
from builds.work.models.link import Link
from garage.actions.refused import Refused
from garage.models import Membership

FIRST_GUESS = (15, 30, 60)


@transaction.atomic
def sand_first(coat: Job, *, by: Membership, at: datetime) -> Job:
    """A job between the coat below and this one; what is below must be hard enough to sand."""
    link = Link.objects.in_garage(coat.vehicle.garage).under(coat).first()
    if link is None:
        raise Refused(f"No coat under {coat} waits to be sanded.")
    sanding = jobs.add(
        coat.vehicle,
        by=by,
        at=at,
        title=f"Sand before: {coat}"[:TITLE_MOST],
        work=FIRST_GUESS,
        systems=["paint"],
        # A safety job would have to be signed; it is as urgent as what waits for it anyway.
        rank="" if coat.rank == Job.Rank.SAFETY else coat.rank,
        skill=coat.skill,
        note="The recoat window of the coat below has closed: it is keyed first.",
    )
    links.add(link.before, sanding, why=link.why, cure=link.cure, cure_stage=Stage.HANDLE)
    links.add(sanding, coat)
    links.remove(link)
    return sanding
