"""The querysets through which every view reaches its rows."""

from typing import TYPE_CHECKING, Any, ClassVar, Self

from django.db import models

if TYPE_CHECKING:
    from garage.models.membership import Membership
    from garage.models.vehicle import Vehicle

EDITORS = ("owner", "helper")


class ScopedQuerySet(models.QuerySet[Any]):
    """`garage_path` leads from the model to its garage; `owner_only` narrows who may change it."""

    garage_path: ClassVar[str] = "garage"
    owner_only: ClassVar[bool] = False

    def in_garage(self, garage: Any) -> Self:
        return self.filter(**{self.garage_path: garage})

    def visible_to(self, member: "Membership") -> Self:
        return self.in_garage(member.garage_id)

    def editable_by(self, member: "Membership") -> Self:
        editors = ("owner",) if self.owner_only else EDITORS
        return self.visible_to(member) if member.role in editors else self.none()


class OfCarsQuerySet(ScopedQuerySet):
    """Of rows that each belong to a car; `newest` of those that say when they were written (`at`)."""

    garage_path = "vehicle__garage"

    def on(self, vehicle: "Vehicle") -> Self:
        return self.filter(vehicle=vehicle)

    def newest(self) -> Self:
        return self.order_by("-at", "-pk")
