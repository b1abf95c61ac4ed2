"""Addresses of the bench sums, and a sum that was kept."""

from builds.sums.models import KeptSum
from tests.factories import NOW, VehicleFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "sum_list": ("", "READS_OWN", "read"),
    "sum_page": ("sum", "READS_OWN", "read"),
    "sum_keep": ("sum_for_car", "WORKS", "send"),
    "sum_kept": ("summed", "READS", "read"),
    "sum_delete": ("kept_sum", "WORKS", "send"),
}


def rows(cast):
    car = VehicleFactory(garage=cast.garage)
    kept = KeptSum.objects.create(vehicle=car, name="fan", units="metric", by=cast.owner, at=NOW)
    return {"sum": "fan", "sum_for_car": ("fan", car.pk), "summed": car.pk, "kept_sum": kept.pk}
