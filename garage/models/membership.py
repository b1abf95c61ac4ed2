"""Membership: a person in a garage, with a role and skills. Every query is scoped by one."""

from functools import cached_property
from typing import Self

from django.db import models

from garage.models.bounds import one_of, text_within
from garage.models.garage import Garage
from garage.models.person import Person
from garage.models.scoped import EDITORS, ScopedQuerySet


class Skill(models.Model):
    """Something that not everybody can do: weld, paint, align."""

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="skills")
    slug = models.SlugField(max_length=40)
    name = models.CharField(max_length=40)

    objects = ScopedQuerySet.as_manager()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "slug"], name="skill_once"),
            text_within("skill", "slug", 40, least=1),
            text_within("skill", "name", 40, least=1),
        ]

    def __str__(self) -> str:
        return self.name


class MembershipQuerySet(ScopedQuerySet):
    owner_only = True

    def active(self) -> Self:
        return self.filter(left_at=None, person__is_active=True)

    def gone(self) -> Self:
        return self.exclude(left_at=None)

    def working(self) -> Self:
        """Those who count as a pair of hands in the plan."""
        return self.filter(works=True)

    def owners(self) -> Self:
        return self.filter(role="owner")

    def hands(self) -> Self:
        """Those still here who may work on the cars."""
        return self.active().filter(role__in=EDITORS)

    def signers(self) -> Self:
        """Those still here whom the owner lets sign."""
        return self.hands().filter(may_sign=True)

    def of(self, person: Person) -> Self:
        return self.filter(person=person)

    def real(self) -> Self:
        """Of garages that are no demo."""
        return self.filter(garage__invented=False)

    def elsewhere(self, garage: Garage) -> Self:
        return self.exclude(garage=garage)


class Membership(models.Model):
    class Role(models.TextChoices):
        OWNER = "owner", "owner"
        HELPER = "helper", "helper"
        VIEWER = "viewer", "viewer"

    garage = models.ForeignKey(Garage, models.CASCADE, related_name="memberships")
    person = models.ForeignKey(Person, models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=10, choices=Role.choices, default=Role.HELPER)
    skills = models.ManyToManyField(Skill, blank=True, related_name="members")
    works = models.BooleanField(default=True, help_text="Counts as a pair of hands in the plan.")
    may_sign = models.BooleanField(
        "may sign", default=False, help_text="Signs hold points and joints that others worked on."
    )
    every_car = models.BooleanField("works on every car", default=True)
    cars = models.ManyToManyField("garage.Vehicle", blank=True, related_name="worked_on_by")
    every_donor = models.BooleanField("may pull parts from every car", default=True)
    donors = models.ManyToManyField("garage.Vehicle", blank=True, related_name="pulled_from_by")
    left_at = models.DateTimeField(null=True, blank=True)
    erased_at = models.DateTimeField(null=True, blank=True)
    erased_by = models.ForeignKey("self", models.PROTECT, null=True, blank=True, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)

    objects = MembershipQuerySet.as_manager()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["garage", "person"], name="membership_once"),
            one_of("membership", "role", ["owner", "helper", "viewer"]),
            models.CheckConstraint(
                condition=models.Q(erased_at=None, erased_by=None)
                | models.Q(left_at__isnull=False, erased_at__isnull=False, erased_by__isnull=False),
                name="membership_erased_by_somebody",
            ),
        ]

    def __str__(self) -> str:
        return self.person.name

    @property
    def name(self) -> str:
        return self.person.name

    @cached_property
    def only_cars(self) -> frozenset[int] | None:
        """Those (pk) that alone he works on; None where he works on every one, as owners do."""
        if self.every_car or self.role == self.Role.OWNER:
            return None
        return frozenset(car.pk for car in self.cars.all())

    @cached_property
    def only_donors(self) -> frozenset[int] | None:
        """As `only_cars`, those that he may pull parts from for other work than their own."""
        if self.every_donor or self.role == self.Role.OWNER:
            return None
        return frozenset(car.pk for car in self.donors.all())
