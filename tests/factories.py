"""Rows for tests, made with as little as each needs."""

from datetime import UTC, datetime, timedelta

import factory
from factory.django import DjangoModelFactory as Rows

from builds.work.engine.ranks import rank_for
from builds.work.models.hold_point import HoldPoint
from builds.work.models.job import Job, JobStation
from builds.work.models.link import Link
from builds.work.models.need import Need
from builds.work.models.span import Span
from garage.models import (
    Entry,
    Event,
    Garage,
    MemberHours,
    Membership,
    Person,
    Skill,
    Station,
    Vehicle,
)

# A Tuesday, well clear of any clock change in the zones that tests use.
NOW = datetime(2027, 3, 2, 17, 0, tzinfo=UTC)


class GarageFactory(Rows):
    class Meta:
        model = Garage

    name = factory.Sequence(lambda n: f"Lock-up {n}")
    time_zone = "UTC"


class PersonFactory(Rows):
    class Meta:
        model = Person

    name = factory.Sequence(lambda n: f"Person {n}")
    email = factory.Sequence(lambda n: f"person{n}@example.org")
    password = "!"  # noqa: S105 (marks an account without one)


class MembershipFactory(Rows):
    class Meta:
        model = Membership

    garage = factory.SubFactory(GarageFactory)
    person = factory.SubFactory(PersonFactory)
    role = "helper"
    may_sign = True


class SkillFactory(Rows):
    class Meta:
        model = Skill
        django_get_or_create = ("garage", "slug")

    garage = factory.SubFactory(GarageFactory)
    slug = "fit"
    name = factory.SelfAttribute("slug")


class StationFactory(Rows):
    class Meta:
        model = Station
        django_get_or_create = ("garage", "slug")

    garage = factory.SubFactory(GarageFactory)
    slug = factory.Sequence(lambda n: f"station-{n}")
    name = factory.SelfAttribute("slug")


class MemberHoursFactory(Rows):
    """Every evening by default when called once a weekday; one stretch a call."""

    class Meta:
        model = MemberHours

    member = factory.SubFactory(MembershipFactory)
    weekday = 1
    from_minute = 18 * 60
    until_minute = 22 * 60


class VehicleFactory(Rows):
    class Meta:
        model = Vehicle

    garage = factory.SubFactory(GarageFactory)
    name = factory.Sequence(lambda n: f"Car {n}")


class EventFactory(Rows):
    class Meta:
        model = Event

    garage = factory.SubFactory(GarageFactory)
    name = factory.Sequence(lambda n: f"Event {n}")
    gates_at = NOW + timedelta(days=10)
    ends_at = factory.LazyAttribute(lambda event: event.gates_at + timedelta(hours=10))
    travel_minutes = 60


class EntryFactory(Rows):
    class Meta:
        model = Entry

    event = factory.SubFactory(EventFactory)
    vehicle = factory.SubFactory(VehicleFactory, garage=factory.SelfAttribute("..event.garage"))


class JobFactory(Rows):
    class Meta:
        model = Job

    vehicle = factory.SubFactory(VehicleFactory)
    title = factory.Sequence(lambda n: f"Job {n}")
    rank = "needed"
    # Work of which nobody says what it touches has to say at its end what it opened.
    systems = factory.LazyAttribute(lambda job: [] if job.recipe or job.rank == "safety" else ["exhaust"])
    recipe = ""
    # So has safety work written down by hand; of the kinds that may be put down half done this one disturbs the least.
    kinds = factory.LazyAttribute(
        lambda job: [] if job.recipe or not (job.rank == "safety" or rank_for(job.systems)) else ["engine_work"]
    )
    low_minutes = 30
    likely_minutes = 60
    high_minutes = 120
    made_by = factory.SubFactory(MembershipFactory, garage=factory.SelfAttribute("..vehicle.garage"), role="owner")
    made_at = NOW


class JobStationFactory(Rows):
    class Meta:
        model = JobStation

    job = factory.SubFactory(JobFactory)
    station = factory.SubFactory(StationFactory, garage=factory.SelfAttribute("..job.vehicle.garage"))


class LinkFactory(Rows):
    class Meta:
        model = Link

    before = factory.SubFactory(JobFactory)
    after = factory.SubFactory(JobFactory, vehicle=factory.SelfAttribute("..before.vehicle"))


class NeedFactory(Rows):
    class Meta:
        model = Need

    job = factory.SubFactory(JobFactory)
    what = "front hub"
    asked_at = NOW


class HoldPointFactory(Rows):
    class Meta:
        model = HoldPoint

    job = factory.SubFactory(JobFactory)
    what = "Look at the welds"


class SpanFactory(Rows):
    """An hour in hand that is over, by whoever wrote the job down."""

    class Meta:
        model = Span
        skip_postgeneration_save = True

    job = factory.SubFactory(JobFactory)
    state = "in_hand"
    from_at = NOW - timedelta(hours=1)
    until_at = NOW
    by = factory.SelfAttribute("job.made_by")

    @factory.post_generation
    def crew(self, create, given, **more):
        self.crew.set(given or [self.by])
