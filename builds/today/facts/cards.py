"""What the cards of some jobs are told from, each kind of row in one query."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from builds.needs.facts.wants import Wants, wants_of
from builds.plan.facts.last_days import last_days
from builds.today.facts.evening import night_of
from builds.work.engine.open_work import Work
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, JobStation
from builds.work.models.need import Need
from garage.engine.presence import Window
from garage.facts.presence import member_windows, members_from
from garage.models import Garage, Membership


@dataclass(frozen=True)
class CardFacts:
    """By pk: `jobs`, `people` and their `windows`; by job (pk) `needs`, hold `points`, `uses` of stations,
    and in `last_days` until when its parts may come.
    """

    garage: Garage
    work: Work
    jobs: dict[int, Job]
    people: dict[int, Membership]
    windows: dict[int, list[Window]]
    wants: Wants
    last_days: Mapping[int, date]
    needs: dict[int, list[Need]]
    points: dict[int, list[HoldPoint]]
    uses: dict[int, list[JobStation]]


def card_facts(garage: Garage, work: Work, jobs: list[int]) -> CardFacts:
    needs: dict[int, list[Need]] = defaultdict(list)
    for need in Need.objects.filter(job__in=jobs).with_ends():
        needs[need.job_id].append(need)
    points: dict[int, list[HoldPoint]] = defaultdict(list)
    for point in HoldPoint.objects.filter(job__in=jobs).select_related(
        "job", "signed_by__person", "written_by__person"
    ):
        points[point.job_id].append(point)
    uses: dict[int, list[JobStation]] = defaultdict(list)
    for use in JobStation.objects.filter(job__in=jobs).select_related("station"):
        uses[use.job_id].append(use)
    return CardFacts(
        garage,
        work,
        {pk: work.jobs[pk] for pk in jobs},
        {member.pk: member for member in members_from(garage, work.at)},
        member_windows(garage, work.at, night_of(garage, work.at) + timedelta(days=1)),
        wants_of(work),
        last_days(garage).days,
        needs,
        points,
        uses,
    )
