"""Files on their way in: stopped at the first byte too many, taken only where a page asks."""

import io

import pytest
from django.test import Client

from garage.models import Photo
from tests.factories import JobFactory, VehicleFactory
from tests.pictures import as_file, jpeg

MB = 1024**2
EDGE = "----edge"


class Trickle(io.RawIOBase):
    """A body that is made while it is read, and counts how much was."""

    def __init__(self, size, name="pictures"):
        head = f'--{EDGE}\r\nContent-Disposition: form-data; name="{name}"; filename="a.jpg"'
        self.head = head.encode() + b"\r\nContent-Type: image/jpeg\r\n\r\n"
        self.left, self.read_so_far = size, 0

    def read(self, size=-1):
        if self.head:
            given, self.head = self.head[:size], self.head[size:]
        else:
            given = bytes(min(size if size >= 0 else self.left, self.left))
            self.left -= len(given)
        self.read_so_far += len(given)
        return given


@pytest.fixture
def spool(settings, tmp_path):
    """Where files larger than 2.5 MB are put while they come in; and where photos are kept."""
    settings.FILE_UPLOAD_TEMP_DIR = str(tmp_path / "spool")
    settings.PHOTO_DIR = tmp_path / "photos"
    (tmp_path / "spool").mkdir()
    return tmp_path


@pytest.fixture
def send(helper, cast, spool):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    url = f"/photos/of/car/{car.pk}/add/"

    def sender(body, length, url=url, client=helper):
        request = client._base_environ(
            PATH_INFO=url, REQUEST_METHOD="POST", **{"wsgi.input": body},
            CONTENT_TYPE=f"multipart/form-data; boundary={EDGE}",
        )  # fmt: skip
        if length is not None:
            request["CONTENT_LENGTH"] = str(length)
        return client.handler(request)

    sender.url = url
    return sender


def left_behind(folder):
    return [file for file in folder.rglob("*") if file.is_file() and file.name != "photos.lock"]


def test_a_huge_file_is_refused_unread(send, spool):
    body = Trickle(300 * MB)
    answer = send(body, 300 * MB)
    assert answer.status_code == 413
    assert "More than 64 MB at once is not taken: send fewer files." in answer.content.decode()
    assert body.read_so_far == 0
    assert left_behind(spool) == []


def test_one_file_too_large_is_read_no_further_than_its_limit(send, spool):
    body = Trickle(40 * MB)
    answer = send(body, 40 * MB)
    assert answer.status_code == 413
    assert "A file of more than 12 MB is not taken: send a smaller one." in answer.content.decode()
    assert body.read_so_far <= 12 * MB + 256 * 1024
    assert left_behind(spool) == []
    assert not Photo.objects.exists()


def test_without_a_length_nothing_is_read(send):
    body = Trickle(300 * MB)
    answer = send(body, None)
    assert answer.status_code == 411
    assert "did not say how much it sends" in answer.content.decode()
    assert body.read_so_far == 0


@pytest.mark.parametrize("length", [300, 3 * MB, 11 * MB])
def test_a_length_that_is_wrong_ends_in_a_refusal(send, spool, length):
    answer = send(Trickle(3 * MB), length)
    assert 400 <= answer.status_code < 500
    assert not Photo.objects.exists()
    assert left_behind(spool) == []


def test_a_page_that_asks_for_no_files_takes_none(owner, send):
    body = Trickle(900_000)
    answer = send(body, 900_000, "/cars/add/", owner)
    assert answer.status_code == 413
    assert "This page takes no files." in answer.content.decode()
    assert body.read_so_far < 200_000


def test_nobody_sends_files_without_signing_in(send):
    body = Trickle(900_000)
    client = Client(enforce_csrf_checks=True)
    assert send(body, 900_000, client=client).status_code == 302
    assert body.read_so_far == 0


def test_whoever_was_signed_out_meanwhile_is_asked_to_sign_in_and_told_nothing_else(helper, cast):
    """With a photo too: its page stays, and the button works once he is signed in again (see `pictures.js`)."""
    path = f"/jobs/{JobFactory(vehicle__garage=cast.garage).pk}/found/"
    helper.logout()
    answer = helper.press(path, {"line": "A crack", "pictures": jpeg()}, headers={"HX-Request": "true"})
    assert (answer.status_code, answer["HX-Redirect"][:9]) == (401, "/sign-in/")


def test_photo_two_hundred_and_one_of_a_thing_names_the_limit(send, helper, settings, spool):
    settings.PHOTO_MOST_OF_ONE = 2
    helper.press(send.url, {"pictures": [jpeg(), jpeg()]})
    before = left_behind(spool)
    answer = helper.press(send.url, {"pictures": jpeg("third.jpg")})
    assert answer.status_code == 422
    sentence = "third.jpg does not fit: Heron has 2 photos, which is the most."
    assert sentence in answer.content.decode()
    assert left_behind(spool) == before


def test_a_full_garage_names_the_limit_and_keeps_no_file(send, helper, settings, spool):
    settings.PHOTO_GARAGE_BYTES = 100
    answer = helper.press(send.url, {"pictures": jpeg()})
    assert answer.status_code == 422
    assert "photos of Quayside Lock-up fill 0 MB, which is the most" in answer.content.decode()
    assert left_behind(spool) == []
    assert helper.get("/cars/").status_code == 200


@pytest.mark.parametrize(("room", "status"), [(0, 303), (-1, 422)])
def test_the_garage_is_full_at_its_last_byte(send, helper, settings, room, status):
    helper.press(send.url, {"pictures": jpeg()})
    settings.PHOTO_GARAGE_BYTES = 2 * Photo.objects.get().bytes + room
    assert helper.press(send.url, {"pictures": jpeg()}).status_code == status


def test_a_disk_with_little_left_takes_none_and_the_rest_still_works(send, helper, settings, spool):
    settings.PHOTO_DISK_FLOOR = 10**18
    answer = helper.press(send.url, {"pictures": jpeg()})
    assert answer.status_code == 422
    assert "the records need those" in answer.content.decode()
    assert left_behind(spool) == []
    assert helper.get("/").status_code == 200


@pytest.mark.parametrize("data", [b"", b"\xff\xd8\xff\xe0", b"<svg/>", b"GIF89a"])
def test_a_refused_file_leaves_nothing_on_the_disk(send, helper, spool, data):
    answer = helper.press(send.url, {"pictures": as_file(data, "../../odd<b>.jpg")})
    assert answer.status_code == 422
    assert "odd&lt;b&gt;.jpg is not a JPEG, PNG or WebP picture" in answer.content.decode()
    assert left_behind(spool) == []


def test_a_write_that_fails_half_way_leaves_nothing(send, helper, spool, monkeypatch):
    calls = []

    def once_then_full(handle):
        calls.append(handle)
        if len(calls) == 2:
            raise OSError("No space left on device")

    monkeypatch.setattr("garage.photo_files.os.fsync", once_then_full)
    helper.raise_request_exception = False
    assert helper.press(send.url, {"pictures": jpeg()}).status_code in (422, 500)
    assert left_behind(spool) == []
    assert not Photo.objects.exists()
