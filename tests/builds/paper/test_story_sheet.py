"""The photos of a car on paper: by day, before and after beside each other, in files of so many at most."""

from datetime import timedelta
from io import BytesIO

import pytest
from django.core.management import call_command
from pypdf import PdfReader

from builds.photos.models import JobPhoto
from builds.photos.pages import story as story_page
from builds.work.models.states import State
from garage import photo_files
from garage.actions import photos
from garage.models import Photo, VehiclePhoto
from tests.conftest import queries
from tests.factories import NOW, JobFactory, SpanFactory, VehicleFactory
from tests.paper.rendering import placed_words
from tests.pictures import as_file, corners, encoded

DAY = timedelta(days=1)


@pytest.fixture
def car(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def add(tie, thing, by, at, caption=""):
    """Each a picture of its own: two alike would be one in a PDF."""
    picture = as_file(encoded(corners(1600, 1200 - 8 * Photo.objects.count()), "JPEG"))
    return photos.add(tie, thing, photos.keep(picture), by=by, at=at, caption=caption)


def weld(cast, car):
    """A job photographed before and after, and the car nine days before, which is answered."""
    job = JobFactory(vehicle=car, made_by=cast.owner, title="Weld the arm", state=State.DONE, finished_at=NOW - DAY)
    SpanFactory(job=job, state=State.IN_HAND, from_at=NOW - 2 * DAY, until_at=NOW - DAY, by=cast.helper)
    add(JobPhoto, job, cast.helper, NOW - 3 * DAY, "Crack")
    add(JobPhoto, job, cast.helper, NOW, "Ground")
    return add(VehiclePhoto, car, cast.helper, NOW - 9 * DAY, "Arrived")


def read(client, car, part=""):
    answer = client.get(f"/cars/{car.pk}/photos.pdf{part}")
    assert answer["Content-Type"] == "application/pdf"
    return PdfReader(BytesIO(answer.content)), answer.content


def text_of(page):
    return " ".join(page.extract_text().split())


def test_it_tells_days_captions_who_and_the_verdict_with_the_pair_side_by_side(helper, cast, car, tmp_path):
    weld(cast, car)
    reader, data = read(helper, car)
    text = " ".join(map(text_of, reader.pages))
    for said in ("Heron in photos", "Tue 2 Mar 2027", "Weld the arm", "Tove, Sun 21 Feb 2027 17:00", "Computed"):
        assert said in text
    assert text.index("Before Crack") < text.index("After Ground") < text.index("Sun 21 Feb 2027 Heron Arrived")
    words = {word.text: word for word in placed_words(data, tmp_path)[0]}
    assert words["Before"].top == words["After"].top and words["Crack"].right < words["After"].left
    assert sum(len(page.images) for page in reader.pages) == 3


def test_each_file_goes_in_as_it_is_kept_and_one_that_is_lost_leaves_its_frame(helper, cast, car):
    lost = weld(cast, car)
    photo_files.remove(lost.name)
    reader, _ = read(helper, car)
    drawn = {image.indirect_reference.get_object().get_data() for page in reader.pages for image in page.images}
    assert drawn == {photo_files.path(photo.name, "large").read_bytes() for photo in Photo.objects.exclude(pk=lost.pk)}
    assert "The file of this photo is not here." in " ".join(map(text_of, reader.pages))


def test_a_file_holds_so_many_and_the_page_offers_the_next(helper, cast, car, monkeypatch):
    monkeypatch.setattr(story_page, "MOST_PRINTED", 3)
    for number in range(4):
        add(VehiclePhoto, car, cast.helper, NOW - number * DAY, f"Day{number}")
    page = helper.get(f"/cars/{car.pk}/photos/").content.decode()
    assert f"/cars/{car.pk}/photos.pdf?part=2" in page and f"/cars/{car.pk}/photos.pdf?part=3" not in page
    first, second, beyond = (
        " ".join(map(text_of, read(helper, car, f"?part={part}")[0].pages)) for part in ("1", "2", "99")
    )
    assert "Day0" in first and "Day2" in first and "Day3" not in first
    assert "Day3" in second and "Part 2 of 2" in second and beyond == second


def test_without_photos_it_says_so_and_the_page_offers_none(helper, car):
    assert "photos.pdf" not in helper.get(f"/cars/{car.pk}/photos/").content.decode()
    assert "No photo of it yet." in text_of(read(helper, car)[0].pages[0])


def test_as_many_queries_for_one_photo_as_for_five(owner, cast, car):
    add(VehiclePhoto, car, cast.owner, NOW)
    one = queries(owner, f"/cars/{car.pk}/photos.pdf")
    for number in range(4):
        add(VehiclePhoto, car, cast.owner, NOW - number * DAY)
    assert queries(owner, f"/cars/{car.pk}/photos.pdf") == one


def test_the_command_writes_it(cast, car, tmp_path):
    weld(cast, car)
    call_command("sheet", "story", "Heron", garage=cast.garage.name, output=str(tmp_path / "story.pdf"))
    assert sum(len(page.images) for page in PdfReader(tmp_path / "story.pdf").pages) == 3
