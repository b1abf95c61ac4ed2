"""The sweep: files that no photo names, drafts and photos of nothing go; the rest stays."""

import os
from datetime import timedelta
from uuid import uuid4

import pytest

from garage import photo_files
from garage.actions import photos
from garage.models import Photo, VehiclePhoto
from tests.factories import NOW, VehicleFactory
from tests.pictures import jpeg


@pytest.fixture
def photo(cast, settings, tmp_path):
    settings.PHOTO_DIR = tmp_path
    car = VehicleFactory(garage=cast.garage)
    return photos.add(VehiclePhoto, car, photos.keep(jpeg()), by=cast.helper, at=NOW)


def aged(at=NOW - timedelta(days=2)):
    for file in photo_files.folder().rglob("*.*"):
        os.utime(file, (at.timestamp(), at.timestamp()))


def test_old_files_of_nobody_go_and_a_photos_own_stay(photo):
    stray = photos.keep(jpeg())
    draft = photo_files.path(photo.name, "large").with_suffix(".draft")
    draft.write_bytes(b"half")
    aged()
    assert photos.sweep(at=NOW) == (3, 0)
    assert not photo_files.path(stray.name, "small").exists() and not draft.exists()
    assert photo_files.path(photo.name, "large").exists()


def test_young_files_may_be_on_their_way_to_a_row(photo):
    photos.keep(jpeg())
    aged(NOW - timedelta(hours=1))
    assert photos.sweep(at=NOW) == (0, 0)


def test_a_photo_of_nothing_goes_with_its_files(photo):
    VehiclePhoto.objects.all().delete()
    aged()
    assert photos.sweep(at=NOW) == (2, 0)
    assert not Photo.objects.exists()


def test_a_photo_without_its_file_is_counted(photo):
    photo_files.remove(photo.name)
    assert photos.sweep(at=NOW) == (0, 1)
    Photo.objects.update(name=uuid4())
    assert photos.sweep(at=NOW) == (0, 1)
