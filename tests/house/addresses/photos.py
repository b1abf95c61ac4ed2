"""Addresses of photos, and one row of each thing that they name."""

from garage.actions import photos
from garage.models import VehiclePhoto
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.pictures import jpeg

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "photo_add": ("pictured", "WORKS", "form"),
    "photo_story": ("pictured_car", "READS", "read"),
    "photo_page": ("photo", "READS", "read"),
    "photo_file": ("photo_file", "READS", "read"),
    "photo_edit": ("photo", "WORKS", "form"),
    "photo_delete": ("photo", "WORKS", "send"),
}


def rows(cast):
    car = VehicleFactory(garage=cast.garage)
    kept = photos.keep(jpeg())
    photo = photos.add(VehiclePhoto, car, kept, by=cast.helper, at=NOW)
    job = JobFactory(vehicle=car, made_by=cast.owner)
    return {"photo": photo.pk, "photo_file": (photo.pk, "small"), "pictured": ("job", job.pk), "pictured_car": car.pk}
