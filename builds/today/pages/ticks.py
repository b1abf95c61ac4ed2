"""Jobs of which a guest of a shared page says that they are done: they wait for a yes."""

from dataclasses import dataclass

from django.urls import reverse

from builds.work.models.guest_tick import GuestTick
from builds.work.models.states import OPEN_STATES
from garage.access import refuse_working
from garage.models import Membership


@dataclass(frozen=True)
class TickToday:
    """The yes is to finish the job, as ever."""

    pk: int
    who: str
    what: str
    line: str
    job_url: str
    finish_url: str


def ticks_today(me: Membership) -> tuple[TickToday, ...]:
    """For those who work here; one query."""
    if refuse_working(me):
        return ()
    rows = GuestTick.objects.visible_to(me).waiting().filter(job__state__in=OPEN_STATES)
    return tuple(
        TickToday(
            tick.pk,
            tick.name,
            f"“{tick.job.title}”, {tick.job.vehicle}",
            tick.line,
            reverse("job_page", args=[tick.job_id]),
            reverse("job_finish", args=[tick.job_id]),
        )
        for tick in rows.select_related("job__vehicle")
    )
