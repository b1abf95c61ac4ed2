"""What plan tests share: hours, entries, and plans laid bare."""

import re
from datetime import timedelta
from io import StringIO

from django.core.management import call_command

from builds.paper.pages.checklist import checklist_rows
from builds.plan.actions.follow import follow_write, make_plan
from builds.plan.facts.stored import read, shown
from builds.work.models.span import Span
from builds.work.models.states import State
from garage import writes
from tests.conftest import Browserless
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, MemberHoursFactory
from tests.pages import words


def evenings(member, days=range(7), since=18, until=22):
    """In on these weekdays, whole hours of the wall clock."""
    for day in days:
        MemberHoursFactory(member=member, weekday=day, from_minute=since * 60, until_minute=until * 60)


def enter(car, leaves=NOW + timedelta(days=3), weight=1, name="Saltmarsh Hill Climb"):
    """An entry for which the car must leave at that moment."""
    event = EventFactory(garage=car.garage, name=name, gates_at=leaves + timedelta(hours=1), travel_minutes=60)
    return EntryFactory(event=event, vehicle=car, weight=weight)


def job(car, cast, title="Fit the fan", **more):
    return JobFactory(vehicle=car, made_by=cast.owner, title=title, **more)


def worked(job, since, until, *crew):
    """A stretch of work; `until` None leaves the job in hand."""
    span = Span.objects.create(job=job, state=State.IN_HAND, by=job.made_by, from_at=since, until_at=until)
    span.crew.set(crew)
    return span


def planned(garage, at=NOW):
    """Plan the garage and read the plan back."""
    return read(make_plan(garage, at=at), garage)


def write(garage):
    """As `once` counts a write."""
    writes.count(garage.pk, at=NOW)


def followed(garage, at=NOW):
    """The plan on the wall after a write."""
    write(garage)
    follow_write(garage.pk, at=at)
    return shown(garage)


def starts(plan):
    """When each placed job starts and ends, as `Tue 18:00`, and by whom, by title."""
    people = {row.id: row.name for row in plan.problem.people}
    return {
        plan.jobs[row.id].title: (
            plan.clock.words(row.start),
            plan.clock.words(row.end),
            *sorted(people[name] for name in row.people),
        )
        for row in plan.placed.values()
    }


def text(client, path="/plan/"):
    answer = client.get(path)
    assert answer.status_code == 200
    return answer.content.decode()


def main(client):
    """The words of the plan page's main part."""
    body = text(client)
    return words(body[body.index("<main") :])


def said_everywhere(owner, entry, cast):
    """The words of every page, sheet and command that says what becomes of the car, by name."""
    link = owner.press(f"/share/add/?event={entry.event_id}", {"days": "14", "label": "the club"}).content.decode()
    shared = re.search(r"/shared/[\w-]+/", link)[0]
    out = StringIO()
    rows = checklist_rows(entry, NOW)
    pages = {
        "Today": "/",
        "plan": "/plan/",
        "odds": "/plan/odds/",
        "car": f"/cars/{entry.vehicle_id}/",
        "event": f"/events/{entry.event_id}/",
        "remedies": f"/entries/{entry.pk}/remedies/",
    }
    said = {name: words(owner.get(path).content.decode()) for name, path in pages.items()}
    said["share"] = words(Browserless().get(shared).content.decode())
    call_command("plan", "--garage", cast.garage.name, stdout=out, no_color=True)
    return said | {"sheet": rows.outlook, "command": out.getvalue()}


def outlook_of(owner):
    """As Today has it of the first entry."""
    return owner.get("/").context["view"].entries[0].outlook
