"""All that a plan rests on, fetched in a fixed number of queries."""

from collections import defaultdict
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

from builds.needs.facts.wants import load_wants
from builds.plan.engine.asked_skill import AskedSkill
from builds.steps.facts.looks import hands_known
from builds.work.engine.open_work import Work
from builds.work.engine.room_now import StillInAir
from builds.work.facts.room_now import sprayed_lately
from builds.work.facts.work import load_work
from builds.work.models.job import Job, JobStation
from builds.work.models.link import StationHold
from builds.work.models.need import Need
from builds.work.models.skill_loan import SkillLoan
from builds.work.models.states import OPEN_STATES
from garage.engine.presence import Window
from garage.facts.entries import nights_ahead
from garage.facts.presence import hosts_of, members_from
from garage.models import Entry, Event, Garage, Membership, Night, Station
from garage.remembered import remembered

TO_ORDER = ("find", "promised")  # what lies there for others has to come once more


@dataclass(frozen=True)
class PlanRows:
    """Rows of a garage at a moment, by pk.

    `uses` and `needs` by job: of the needs those that neither came nor lie on the shelf for it,
    of which those `to_order` (pk) have still to be found.
    `entry`, by vehicle, is the next event that the car must still leave for, `takes` the next entry of
    another car that it pulls or carries there, and `away` from when until when it is not at home. `nights`
    (by pk) are those at events whose morning has still to come. `lent`, by job, are
    the members who may do it without having its skill. `hands`, by job with hold points that nobody signed, are
    the members whose hands were on what they look at. While none of the `hosts` is in no visitor works.
    """

    at: datetime
    zone: ZoneInfo
    work: Work
    uses: dict[int, list[JobStation]]
    needs: dict[int, list[Need]]
    holds: list[StationHold]
    entry: dict[int, Entry]
    takes: dict[int, Entry]
    away: dict[int, list[Window]]
    nights: dict[int, Night]
    members: list[Membership]
    stations: list[Station]
    lent: dict[int, frozenset[int]]
    hands: dict[int, frozenset[int]] = field(default_factory=dict)
    to_order: frozenset[int] = frozenset()
    clearing: tuple[StillInAir, ...] = ()
    hosts: tuple[Membership, ...] = ()

    def comes_on(self, need: Need) -> date | None:
        """When it is expected; of what is to order and takes some days, when it is here if it is ordered today."""
        if need.expected_on or not need.lead_days or need.pk not in self.to_order:
            return need.expected_on
        return self.at.astimezone(self.zone).date() + timedelta(days=need.lead_days)

    def not_on(self, member: Membership) -> frozenset[int]:
        """The cars (pk) with work to do that he does not work on."""
        if member.only_cars is None:
            return frozenset()
        return frozenset(job.vehicle_id for job in self.work.jobs.values()) - member.only_cars

    def leaves(self, vehicle: int) -> Entry | None:
        """The entry for which a vehicle must be ready first: its own, or one that it takes there."""
        both = [entry for entry in (self.entry.get(vehicle), self.takes.get(vehicle)) if entry]
        return min(both, key=lambda entry: entry.event.due_at, default=None)

    def asked_skill(self, job: Job) -> AskedSkill | None:
        """What a job asks of one of its people; None when anybody can, or nobody is needed."""
        if job.skill is None or not job.hands:
            return None
        lent = self.lent.get(job.pk, frozenset())
        return AskedSkill(job.skill.name, tuple(sorted(member.name for member in self.members if member.pk in lent)))

    def skills_of(self, member: Membership) -> tuple[str, ...]:
        """Names of his own skills, and the ids of lent ones for which he has the skill or was lent it."""
        skills = {skill.name for skill in member.skills.all()}
        for pk, lent_to in self.lent.items():
            asked = self.asked_skill(self.work.jobs[pk]) if pk in self.work.jobs else None
            if asked and (member.pk in lent_to or asked.name in skills):
                skills.add(asked.id)
        return tuple(sorted(skills))

    def skill_ids(self, name: str) -> tuple[str, ...]:
        """The ids under which jobs ask for that skill: more than one where it is lent for some."""
        asked = map(self.asked_skill, self.work.jobs.values())
        return tuple(sorted({skill.id for skill in asked if skill and skill.name == name}))


def fetch(garage: Garage, at: datetime) -> PlanRows:
    zone = ZoneInfo(garage.time_zone)
    uses, holds, stations, lent = remembered(garage, "plan_rows", lambda: _without_a_clock(garage))
    work, coming, members = load_work(garage, at), _entries_coming(garage, at), members_from(garage, at)
    ahead = [entry for entry in coming if entry.event.ends_at > at and entry.event.due_at > at]
    entries = {entry.vehicle_id: entry for entry in ahead}
    due = {car: entry.event.due_at for car, entry in entries.items()}
    wants = load_wants(garage, work, due)
    needs: dict[int, list[Need]] = defaultdict(list)
    for need in sorted(wants.needs, key=lambda need: need.pk):
        if wants.standing[need.pk].state != "shelf":
            needs[need.job_id].append(need)
    return PlanRows(
        at=at,
        zone=zone,
        work=work,
        uses=uses,
        needs=needs,
        holds=holds,
        entry=entries,
        away=_away(coming, work, at),
        nights={night.pk: night for night in nights_ahead(garage, at)},
        takes={entry.tow_id: entry for entry in ahead if entry.tow and entry.tow.gone_at is None},
        members=[member for member in members if member.works],
        hosts=tuple(hosts_of(members)),
        stations=stations,
        lent=lent,
        hands=hands_known(garage, (work.jobs[pk] for pk in work.unsigned if pk in work.jobs)),
        clearing=sprayed_lately(garage, at),
        to_order=frozenset(pk for pk, standing in wants.standing.items() if standing.state in TO_ORDER),
    )


def _without_a_clock(
    garage: Garage,
) -> tuple[dict[int, list[JobStation]], list[StationHold], list[Station], dict[int, frozenset[int]]]:
    """What each job uses, what stripped cars hold, the stations, and who was lent the skill of which job."""
    uses: dict[int, list[JobStation]] = defaultdict(list)
    for use in JobStation.objects.in_garage(garage).filter(job__state__in=OPEN_STATES):
        uses[use.job_id].append(use)
    kept = StationHold.objects.in_garage(garage).keeping().with_begun()
    holds = kept.filter(last__state__in=OPEN_STATES, last__vehicle__gone_at=None).select_related("first")
    stations = Station.objects.in_garage(garage).prefetch_related("weekly_hours")
    return dict(uses), list(holds), list(stations), _lent(garage)


def _lent(garage: Garage) -> dict[int, frozenset[int]]:
    lent: dict[int, set[int]] = defaultdict(set)
    for loan in SkillLoan.objects.in_garage(garage).filter(job__state__in=OPEN_STATES):
        lent[loan.job_id].add(loan.member_id)
    return {job: frozenset(members) for job, members in lent.items()}


def _entries_coming(garage: Garage, at: datetime) -> list[Entry]:
    """Those whose car is to leave, or is not back, the next of all last."""
    events = Event.objects.in_garage(garage).not_back(at)
    rows = Entry.objects.in_garage(garage).coming().filter(event__in=events)
    entries = [entry for entry in rows.select_related("event", "vehicle", "tow") if entry.event.back_at > at]
    return sorted(entries, key=lambda entry: (entry.event.due_at, entry.pk), reverse=True)


def _away(coming: list[Entry], work: Work, at: datetime) -> dict[int, list[Window]]:
    """From when until when each vehicle (pk) is at an event, or on its way.

    One that should have left, and has open work which it must have done first, is still here.
    """
    away: dict[int, list[Window]] = defaultdict(list)
    for entry in coming:
        leaves, back = entry.event.due_at, entry.event.back_at
        if leaves > at or not _still_here(entry, work):
            for vehicle in filter(None, (entry.vehicle_id, entry.tow_id)):
                away[vehicle].append((leaves, back))
    return away


def _still_here(entry: Entry, work: Work) -> bool:
    return any(
        job.vehicle_id == entry.vehicle_id and job.must_do and job.night_id is None and job.made_at < entry.event.due_at
        for job in work.jobs.values()
    )
