"""The querysets through which every view reaches its rows."""

from typing import TYPE_CHECKING, Any, ClassVar, Self

from django.db import models

if TYPE_CHECKING:
    from garage.models.membership import Membership
    from garage.models.vehicle import Vehicle

EDITORS = ("owner", "helper")


class ScopedQuerySet(models.QuerySet[Any]):
    """`garage_path` leads from the model to its garage; `owner_only` narrows who may change it.

    `car_path` leads to the car on which whoever changes it works, if it is of one.
    """

    garage_path: ClassVar[str] = "garage"
    car_path: ClassVar[str] = ""
    owner_only: ClassVar[bool] = False

    def __init_subclass__(cls) -> None:
        if "car_path" not in cls.__dict__:
            of_a_car = cls.garage_path.endswith("vehicle__garage")
            cls.car_path = cls.garage_path.removesuffix("__garage") if of_a_car else ""

    def in_garage(self, garage: Any) -> Self:
        return self.filter(**{self.garage_path: garage})

    def visible_to(self, member: "Membership") -> Self:
        return self.in_garage(member.garage_id)

    def editable_by(self, member: "Membership") -> Self:
        editors = ("owner",) if self.owner_only else EDITORS
        return self.on_cars_of(member) if member.role in editors else self.none()

    def on_cars_of(self, member: "Membership") -> Self:
        """What he sees, but for what is of a car on which he does not work."""
        rows = self.visible_to(member)
        if not self.car_path or member.only_cars is None:
            return rows
        return rows.filter(models.Q(**{self.car_path: None}) | models.Q(**{f"{self.car_path}__in": member.only_cars}))


class OfCarsQuerySet(ScopedQuerySet):
    """Of rows that each belong to a car; `newest` of those that say when they were written (`at`)."""

    garage_path = "vehicle__garage"

    def on(self, vehicle: "Vehicle") -> Self:
        return self.filter(vehicle=vehicle)

    def newest(self) -> Self:
        return self.order_by("-at", "-pk")
