"""How things stand for somebody, and the news of it as a mail."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from django.core import signing
from django.template.loader import render_to_string
from django.urls import reverse

from builds.cars.facts import fleet_of
from builds.needs.pages.needs import what_words
from builds.news.engine import NewsKinds, Standing, news
from builds.news.facts import came_of
from builds.news.models import NewsWish
from builds.plan.engine.ids import id_of, pk_of
from builds.plan.engine.sessions import sessions
from builds.plan.facts.stored import shown_to
from builds.today.pages.to_sign import to_sign
from builds.verdict.engine import verdict
from builds.work.engine.open_work import Work
from builds.work.facts.work import load_work
from builds.work.models.need import Need
from garage.access import refuse_presence
from garage.facts.presence import members_from
from garage.models import Membership
from garage.public import public

PURPOSE = "stop the news by mail"
AHEAD = timedelta(days=7)


@dataclass(frozen=True)
class NewsMail:
    subject: str
    text: str
    stop_url: str


def stop_token(wish: NewsWish) -> str:
    """Opens the page that stops his news, and nothing else."""
    return signing.dumps(wish.member_id, salt=PURPOSE)


def stopped_by(token: str) -> NewsWish | None:
    """None for a token that is wrong or of another purpose, and for whoever gets no news any more."""
    try:
        member = signing.loads(token, salt=PURPOSE)
    except signing.BadSignature:
        return None
    return NewsWish.objects.filter(member=member).select_related("member__garage").first()


def standing_of(me: Membership, at: datetime) -> Standing:
    """As he may know it: whoever only looks has no evenings of his own, and signs nothing."""
    work, members, fleet = load_work(me.garage, at), members_from(me.garage, at), fleet_of(me.garage, at)
    cars = {car.pk: verdict(fleet.facts[car.pk]) for car in fleet.cars}
    works = refuse_presence(me) is None
    return Standing(
        _evenings(me, work, at) if works else {},
        {
            f"{line.url}": f"{line.card.title}, {line.card.vehicle}"
            for line in (to_sign(me, members, work) if works else ())
            if line.may_sign
        },
        {
            str(need.pk): f"{what_words(need)}, for “{need.job.title}” on {need.job.vehicle}"
            for need in Need.objects.on_cars_of(me).open().with_ends()
        },
        {str(car.pk): [cars[car.pk].state, f"{car.name}: {cars[car.pk].sentence}."] for car in fleet.cars},
    )


def _evenings(me: Membership, work: Work, at: datetime) -> dict[str, list[str]]:
    """By day (ISO): from when, and what is first for him then."""
    plan, zone = shown_to(me), ZoneInfo(me.garage.time_zone)
    evenings: dict[str, list[str]] = {}
    for session in sessions(plan) if plan else ():
        starts, job = plan.clock.moment(session.start).astimezone(zone), work.jobs.get(pk_of(session.job))
        mine = id_of("person", me.pk) in session.people
        if mine and job and at < starts < at + AHEAD and starts.date().isoformat() not in evenings:
            evenings[starts.date().isoformat()] = [f"{starts:%H:%M}", f"“{job.title}”, {job.vehicle.name}"]
    return evenings


def news_for(wish: NewsWish, now: Standing, at: datetime) -> NewsMail | None:
    """None where there is none, as at the first look."""
    if not wish.told:
        return None
    before, me = Standing.read(wish.told), wish.member
    came = {str(need.pk): before.parts[str(need.pk)] for need in came_of(me.garage, before.parts)}
    today = at.astimezone(ZoneInfo(me.garage.time_zone)).date()
    lines = news(before, now, came, NewsKinds(wish.evenings, wish.points, wish.parts, wish.cars), today)
    if not lines:
        return None
    stop_url = public(reverse("news_stop", args=[stop_token(wish)]))
    context = {
        "name": me.name,
        "garage": me.garage,
        "lines": lines,
        "stop_url": stop_url,
        "url": public(reverse("today")),
    }
    subject = f"{me.garage.name}: {lines[0]}" if len(lines) == 1 else f"{me.garage.name}: {len(lines)} things are new"
    return NewsMail(" ".join(subject.split())[:150], render_to_string("builds/news/mail_part.txt", context), stop_url)
