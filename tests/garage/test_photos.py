"""The file of a photo: for members of its garage, under headers that let it do nothing."""

import pytest

from garage import photo_files
from garage.actions import photos
from garage.models import VehiclePhoto
from tests.factories import NOW, VehicleFactory
from tests.pictures import jpeg


@pytest.fixture
def photo(cast, settings, tmp_path):
    settings.PHOTO_DIR = tmp_path
    car = VehicleFactory(garage=cast.garage)
    return photos.add(VehiclePhoto, car, photos.keep(jpeg()), by=cast.helper, at=NOW)


@pytest.mark.parametrize("size", ["small", "large"])
def test_it_is_a_jpeg_that_may_do_nothing_and_has_a_harmless_name(viewer, photo, size):
    answer = viewer.get(f"/photos/{photo.pk}/{size}.jpg")
    assert answer.status_code == 200
    assert b"".join(answer) == photo_files.path(photo.name, size).read_bytes()
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Content-Security-Policy"] == "default-src 'none'; sandbox"
    assert answer["Content-Disposition"] == f'inline; filename="photo-{photo.pk}.jpg"'
    assert answer["Cache-Control"] == "private, max-age=86400"


def test_its_address_copied_to_a_stranger_or_to_nobody_leads_nowhere(cast, stranger, photo):
    url = f"/photos/{photo.pk}/large.jpg"
    assert stranger.get(url).status_code == 404
    answer = cast.client("nobody").get(url)
    assert answer.status_code == 302 and "/sign-in/" in answer["Location"]


def test_who_left_the_garage_gets_nothing_any_more(viewer, cast, photo):
    cast.viewer.left_at = NOW
    cast.viewer.save()
    assert viewer.get(f"/photos/{photo.pk}/large.jpg").status_code == 403


def test_a_size_that_is_not_kept_and_a_file_that_is_gone_are_not_there(viewer, photo):
    assert viewer.get(f"/photos/{photo.pk}/huge.jpg").status_code == 404
    photo_files.remove(photo.name)
    assert viewer.get(f"/photos/{photo.pk}/large.jpg").status_code == 404


@pytest.mark.parametrize(
    "url",
    [
        "/media/x.jpg",
        "/photos/../secret.key",
        "/static/../garage.sqlite3",
        "/static/%2e%2e/garage.sqlite3",
        "/static/..;/garage.sqlite3",
        "/.git/config",
        "/garage.sqlite3-wal",
        "/data/photos/",
    ],
)
def test_no_address_leads_into_the_folder_of_the_data(owner, url):
    assert owner.get(url).status_code == 404


def test_it_is_named_at_random_and_lies_outside_what_is_served(photo, settings):
    assert photo.name.version == 4
    large = photo_files.path(photo.name, "large").resolve()
    assert settings.STATIC_ROOT not in large.parents
