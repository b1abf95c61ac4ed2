"""Photos of a car, a part, a job, a hold point, a reading: added, seen, said, deleted."""

import errno

import pytest

from builds.photos.pages.subjects import KINDS, photos_of
from garage import photo_files
from garage.models import Photo
from tests.builds.readings.reading_kit import take
from tests.factories import HoldPointFactory, JobFactory, VehicleFactory
from tests.parts.factories import PartFactory
from tests.pictures import as_file, jpeg


@pytest.fixture
def things(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    job = JobFactory(vehicle=car, made_by=cast.owner, title="Weld lower arm")
    return {
        "car": car,
        "part": PartFactory(garage=cast.garage, name="Hub nut"),
        "job": job,
        "hold-point": HoldPointFactory(job=job),
        "reading": take(car, "camber", cast.owner),
    }


@pytest.fixture
def photo_dir(settings, tmp_path):
    settings.PHOTO_DIR = tmp_path
    return tmp_path


def files(folder):
    return sorted(file for file in folder.rglob("*") if file.is_file())


def add(client, slug, thing, **fields):
    fields = fields or {"pictures": jpeg()}
    return client.press(f"/photos/of/{slug}/{thing.pk}/add/", fields)


@pytest.mark.parametrize("slug", KINDS)
def test_a_photo_of_anything_is_on_its_page_and_leads_back(helper, things, slug):
    answer = add(helper, slug, things[slug], pictures=jpeg(), caption="Crack at the <b>weld</b>")
    assert answer.status_code == 303
    (tie,) = photos_of(things[slug])
    shown = helper.get(answer["Location"]).content.decode()
    assert f"/photos/{tie.photo_id}/small.jpg" in shown
    assert "Crack at the &lt;b&gt;weld&lt;/b&gt;" in shown
    assert answer["Location"].split("#")[0] in helper.get(f"/photos/{tie.photo_id}/").content.decode()


def test_several_at_once_the_bad_one_is_named_and_the_good_ones_stay(helper, things, photo_dir):
    sent = [jpeg("one.jpg"), as_file(b"GIF89a not really", "bad.jpg"), jpeg("two.jpg")]
    answer = helper.press(f"/photos/of/car/{things['car'].pk}/add/", {"pictures": sent}, follow=True)
    assert photos_of(things["car"]).count() == 2
    assert "bad.jpg is not a JPEG, PNG or WebP picture" in answer.content.decode()
    assert len(files(photo_dir)) == 4


def test_the_camera_and_the_chosen_ones_come_together(helper, things):
    add(helper, "job", things["job"], camera=jpeg(), pictures=[jpeg(), jpeg()])
    assert photos_of(things["job"]).count() == 3


def test_nothing_chosen_and_too_many_are_refused_at_the_field(helper, things, photo_dir):
    answer = add(helper, "car", things["car"], caption="Nothing")
    assert answer.status_code == 422
    assert "Take a photo, or choose one." in answer.content.decode()
    assert 'value="Nothing"' in answer.content.decode()
    answer = add(helper, "car", things["car"], pictures=[jpeg() for _ in range(21)])
    assert answer.status_code == 422
    assert "21 at once are too many: 20 go." in answer.content.decode()
    assert files(photo_dir) == []


def test_a_double_tap_keeps_one_photo_and_its_files(helper, things, photo_dir):
    key = "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"
    url = f"/photos/of/car/{things['car'].pk}/add/"
    answers = [helper.post(url, {"key": key, "pictures": jpeg()}) for _ in range(2)]
    assert [answer.status_code for answer in answers] == [303, 303]
    assert photos_of(things["car"]).count() == 1
    assert len(files(photo_dir)) == 2


def test_the_words_are_changed_and_long_ones_refused(helper, things):
    add(helper, "car", things["car"])
    photo = Photo.objects.get()
    assert helper.press(f"/photos/{photo.pk}/edit/", {"caption": "Left side"}).status_code == 303
    photo.refresh_from_db()
    assert photo.caption == "Left side"
    for typed in ("x" * 5000, "a\0b"):
        assert helper.press(f"/photos/{photo.pk}/edit/", {"caption": typed}).status_code == 422
        answer = add(helper, "car", things["car"], pictures=jpeg(), caption=typed)
        assert answer.status_code == 422


def test_deleting_removes_the_files_after_the_row_is_gone(
    helper, things, photo_dir, django_capture_on_commit_callbacks
):
    add(helper, "car", things["car"])
    photo = Photo.objects.get()
    with django_capture_on_commit_callbacks() as after:
        assert helper.press(f"/photos/{photo.pk}/delete/").status_code == 303
    assert not Photo.objects.exists() and len(files(photo_dir)) == 2
    after[0]()
    assert files(photo_dir) == []


def test_a_helper_deletes_only_what_he_added(owner, helper, things, cast):
    add(owner, "car", things["car"])
    photo = Photo.objects.get()
    answer = helper.press(f"/photos/{photo.pk}/delete/", follow=True)
    assert "Only Ines, who added it, or the owner can delete this photo." in answer.content.decode()
    assert photo_files.path(photo.name, "large").exists()


def test_who_looks_on_and_who_is_a_stranger_adds_nothing(viewer, stranger, things, photo_dir):
    assert add(viewer, "car", things["car"]).status_code == 403
    for slug, thing in things.items():
        assert add(stranger, slug, thing).status_code == 404
    assert add(viewer, "wheelbarrow", things["car"]).status_code == 404
    assert files(photo_dir) == []


def test_pages_take_as_many_queries_for_many_photos_as_for_one(owner, helper, things):
    from tests.conftest import queries

    page = f"/cars/{things['car'].pk}/?tab=log"
    add(helper, "car", things["car"])
    one = queries(owner, page)
    add(helper, "car", things["car"], pictures=[jpeg() for _ in range(5)])
    assert queries(owner, page) == one


def test_the_form_opens_the_camera_and_takes_several_without_scripts(helper, things):
    page = helper.get(f"/photos/of/job/{things['job'].pk}/add/").content.decode()
    assert 'enctype="multipart/form-data"' in page
    assert page.count('accept="image/*"') == 2 and page.count('capture="environment"') == 1
    assert page.count(" multiple") == 1


def test_a_photo_that_finds_no_room_leaves_neither_row_nor_file_and_the_disk_is_named(
    helper, things, photo_dir, monkeypatch
):
    def full(target, data):
        raise OSError(errno.ENOSPC, "No space left on device", str(target))

    monkeypatch.setattr(photo_files, "put", full)
    helper.raise_request_exception = False
    answer = add(helper, "car", things["car"])
    assert answer.status_code == 507 and "The disk that holds the garage’s data is full" in answer.content.decode()
    assert not photos_of(things["car"]).exists() and not files(photo_dir)
