"""The photos of a car as a story: by day, the last first; of work, before and after beside each other."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

from builds.photos.engine import Scene, Shot, WorkDone, cut, story
from builds.photos.models import HoldPointPhoto, JobPhoto, ReadingPhoto
from builds.work.models.states import State
from garage.actions import photos
from garage.models import VehiclePhoto
from tests.builds.readings.reading_kit import take
from tests.conftest import queries
from tests.factories import NOW, HoldPointFactory, JobFactory, SpanFactory, VehicleFactory
from tests.pages import words
from tests.pictures import jpeg

DAY = timedelta(days=1)
MARCH = datetime(2027, 3, 2, 18, 0, tzinfo=UTC)


def test_each_day_and_thing_is_a_scene_and_the_last_stands_first():
    rows = [
        Shot(1, MARCH, ("car", 1)),
        Shot(2, MARCH + DAY, ("job", 4)),
        Shot(3, MARCH + timedelta(minutes=5), ("car", 1)),
    ]
    first, second = MARCH.date(), (MARCH + DAY).date()
    assert story(rows, {}, UTC) == [Scene(second, ("job", 4), (2,)), Scene(first, ("car", 1), (1, 3))]


def test_of_work_the_last_before_it_and_the_last_after_it_are_a_pair_on_the_day_of_the_second():
    rows = [Shot(n, MARCH + n * DAY, ("job", 4)) for n in range(1, 7)]
    work = {("job", 4): WorkDone(MARCH + 2 * DAY, MARCH + 5 * DAY)}
    found = story(rows, work, UTC)
    assert found[0] == Scene((MARCH + 6 * DAY).date(), ("job", 4), (), before=2, after=6)
    assert [scene.shots for scene in found[1:]] == [(5,), (4,), (3,), (1,)]
    at_its_end = story(rows[:5], work, UTC)
    assert at_its_end[0] == Scene((MARCH + 5 * DAY).date(), ("job", 4), (), before=2, after=5)


def test_work_photographed_on_one_side_alone_is_no_pair():
    work = {("job", 4): WorkDone(MARCH, MARCH + DAY)}
    for days in ([-1, 0], [1, 2], [0.5]):
        rows = [Shot(n, MARCH + day * DAY, ("job", 4)) for n, day in enumerate(days)]
        assert all(scene.before is None and scene.after is None for scene in story(rows, work, UTC))
    moment = {("job", 4): WorkDone(MARCH, MARCH)}  # finished without a start: one photo is not both
    assert story([Shot(1, MARCH, ("job", 4))], moment, UTC) == [Scene(MARCH.date(), ("job", 4), (1,))]


def test_a_night_ends_at_the_garages_own_midnight():
    late = Shot(1, datetime(2027, 3, 2, 23, 30, tzinfo=UTC), ("car", 1))
    assert story([late], {}, ZoneInfo("Europe/Berlin"))[0].day.day == 3


def test_what_one_file_does_not_hold_goes_on_in_the_next_and_nothing_is_lost():
    day = MARCH.date()
    few, many = Scene(day, ("car", 1), (1, 2)), Scene(day, ("job", 4), tuple(range(3, 12)), before=20, after=21)
    assert cut([few, many], 5) == [
        (few,),
        (Scene(day, ("job", 4), (3, 4, 5), before=20, after=21),),
        (Scene(day, ("job", 4), (6, 7, 8, 9, 10)),),
        (Scene(day, ("job", 4), (11,)),),
    ]
    assert cut([few, few, few], 4) == [(few, few), (few,)]
    assert cut([], 5) == []


def add(tie, thing, by, at, caption=""):
    return photos.add(tie, thing, photos.keep(jpeg()), by=by, at=at, caption=caption)


def test_the_page_shows_the_pair_with_captions_and_what_else_was_photographed(helper, cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    job = JobFactory(vehicle=car, made_by=cast.owner, title="Weld the arm", state=State.DONE, finished_at=NOW - DAY)
    SpanFactory(job=job, state=State.IN_HAND, from_at=NOW - 2 * DAY, until_at=NOW - DAY, by=cast.helper)
    me = cast.helper
    before = add(JobPhoto, job, me, NOW - 3 * DAY, "Crack at the weld")
    after = add(HoldPointPhoto, HoldPointFactory(job=job), me, NOW, "Ground flush")
    add(VehiclePhoto, car, me, NOW - 9 * DAY, "As it came")
    add(ReadingPhoto, take(car, "camber", me), me, NOW)
    page = helper.get(f"/cars/{car.pk}/photos/").content.decode()
    said = words(page)
    assert said.index("Before Crack at the weld") < said.index("After Ground flush") < said.index("As it came")
    assert "A reading" in said and "Weld the arm" in said
    assert page.count(f"/photos/{before.pk}/small.jpg") == page.count(f"/photos/{after.pk}/small.jpg") == 1
    assert page.count('loading="lazy"') == 4
    assert f"/cars/{car.pk}/photos/" in helper.get(f"/cars/{car.pk}/?tab=log").content.decode()


def test_many_days_are_pages_and_take_the_same_queries(owner, cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    assert "No photo of it yet" in owner.get(f"/cars/{car.pk}/photos/").content.decode()
    add(VehiclePhoto, car, cast.owner, NOW - 30 * DAY)
    one = queries(owner, f"/cars/{car.pk}/photos/")
    for day in range(13):
        add(VehiclePhoto, car, cast.owner, NOW - day * DAY)
    assert queries(owner, f"/cars/{car.pk}/photos/") == one
    assert "Page 1 of 2" in words(owner.get(f"/cars/{car.pk}/photos/").content.decode())
