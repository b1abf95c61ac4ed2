"""What a link shows beside how a car stands: photos, parts sought; what it asks first; what its maker is told."""

import re
from datetime import date, timedelta

import pytest

from builds.needs.actions import part_offers
from builds.needs.models import PartOffer
from builds.photos.models import JobPhoto
from builds.steps.actions import steps
from builds.work.models.need import Need
from garage.actions import photos
from garage.actions.refused import Refused
from garage.models import JournalLine, Photo, Share, VehiclePhoto
from tests.conftest import Browserless, queries
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    HoldPointFactory,
    JobFactory,
    NeedFactory,
    VehicleFactory,
)
from tests.pages import words
from tests.pictures import jpeg

PHRASE = "seven rusty bolts"


@pytest.fixture
def heron(cast, now, settings, tmp_path):
    settings.PHOTO_DIR = tmp_path
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, title="Weld the arm", rank="safety", systems=["steering"])
    return car


def photo_on(tie, of, cast, caption):
    return photos.add(tie, of, photos.keep(jpeg()), by=cast.owner, at=NOW, caption=caption)


def make(owner, car, **more):
    page = owner.press(f"/share/add/?vehicle={car.pk}", {"days": "14", **more})
    assert page.status_code == 201
    return re.search(r"/shared/[\w-]+/", page.content.decode())[0]


def read(address, guest=None):
    answer = (guest or Browserless()).get(address)
    assert answer.status_code == 200
    return answer.content.decode()


def test_what_somebody_is_on_is_in_hand_and_not_next(owner, cast, heron):
    address = make(owner, heron)
    assert "Next: 1 Weld the arm" in words(read(address))
    steps.start(heron.jobs.get(), by=cast.owner, at=NOW)
    shown = words(read(address))
    assert "In hand: 1 Weld the arm" in shown and "Next: " not in shown


def test_what_waits_for_a_look_is_a_line_with_its_count_as_the_others(owner, cast, heron):
    job = heron.jobs.get()
    HoldPointFactory(job=job)
    steps.finish(job, by=cast.owner, at=NOW, kinds=["part_weld"])
    seen = read(make(owner, heron))
    assert "Waits for a second pair of eyes: 1 Weld the arm" in words(seen) and "<h class" not in seen


@pytest.mark.parametrize("path", ["/shared/xxx/photos/1.jpg", "/shared/xxx/have/1/", "/shared/%00/photos/1.jpg"])
def test_a_wrong_token_shows_and_takes_nothing(heron, path):
    assert Browserless().get(path).status_code == 404


def test_what_was_loaded_anew_leads_back_to_the_page(owner, heron):
    address = make(owner, heron, parts="on")
    assert Browserless().get(f"{address}have/1/")["Location"] == address


@pytest.mark.parametrize("key", ["", "x", "a\0b", "9" * 50])
def test_what_comes_without_the_key_of_a_button_is_not_taken_and_stays_typed(owner, heron, key):
    need = NeedFactory(job=heron.jobs.get())
    address = make(owner, heron, parts="on")
    answer = Browserless().press(f"{address}have/{need.pk}/", {"name": "Ravi", "line": "One in the shed", "key": key})
    seen = answer.content.decode()
    assert answer.status_code == 422 and "press the button again" in seen and "One in the shed" in seen
    assert not PartOffer.objects.exists()


def test_what_is_sought_no_more_is_not_offered(owner, heron):
    need = NeedFactory(job=heron.jobs.get())
    make(owner, heron, parts="on")
    Need.objects.filter(pk=need.pk).delete()
    with pytest.raises(Refused, match="not sought any more"):
        part_offers.say(Share.objects.get(), need, name="Ravi", line="One", key="k", at=NOW)
    assert not PartOffer.objects.exists()


@pytest.mark.parametrize("typed", [f" {PHRASE} ", f"\u200b{PHRASE}"])
def test_a_pass_phrase_is_read_as_it_was_when_it_was_set(owner, heron, typed):
    address = make(owner, heron, phrase=f"{PHRASE} ")
    assert Browserless().press(address, {"phrase": typed}).status_code == 303


class TestPhotos:
    def test_those_that_were_chosen_and_no_other(self, owner, cast, heron):
        chosen = photo_on(JobPhoto, heron.jobs.get(), cast, "The weld")
        other = photo_on(VehiclePhoto, heron, cast, "The key under the mat")
        address = make(owner, heron, photos=[chosen.pk])
        seen = read(address)
        assert "The weld" in seen and "mat" not in seen
        assert Browserless().get(f"{address}photos/{chosen.pk}.jpg").headers["Content-Type"] == "image/jpeg"
        assert Browserless().get(f"{address}photos/{other.pk}.jpg").status_code == 404
        assert Browserless().get(f"/photos/{chosen.pk}/large.jpg").status_code == 302

    def test_their_words_and_that_their_hour_is_told_stand_where_they_are_chosen(self, owner, cast, heron):
        photo_on(VehiclePhoto, heron, cast, "The key under the mat")
        page = words(owner.get(f"/share/add/?vehicle={heron.pk}").content.decode())
        assert "The key under the mat" in page and "the day and hour at which it was added" in page

    def test_of_another_car_or_garage_none_can_be_chosen(self, owner, cast, heron, stranger):
        badger = VehicleFactory(garage=cast.garage, name="Badger")
        other = photo_on(VehiclePhoto, badger, cast, "Badger")
        answer = owner.press(f"/share/add/?vehicle={heron.pk}", {"days": "14", "photos": [other.pk]})
        assert answer.status_code == 422 and not Share.objects.exists()

    def test_one_that_was_deleted_is_gone(self, owner, cast, heron):
        chosen = photo_on(VehiclePhoto, heron, cast, "The car")
        address = make(owner, heron, photos=[chosen.pk])
        Photo.objects.all().delete()
        assert "The car" not in read(address)
        assert Browserless().get(f"{address}photos/{chosen.pk}.jpg").status_code == 404


class TestPartsSought:
    @pytest.fixture
    def need(self, heron):
        return NeedFactory(job=heron.jobs.get(), what="front hub", supplier="Secret Supplies", cost_minor=999)

    def have(self, address, need, guest=None, **more):
        sent = {"name": "Ravi", "line": "A good one, 07700", **more}
        return (guest or Browserless()).press(f"{address}have/{need.pk}/", sent)

    def test_are_shown_only_if_the_owner_says_so(self, owner, heron, need):
        assert "front hub" not in words(read(make(owner, heron))).split("Next")[0]
        seen = words(read(make(owner, heron, parts="on")))
        assert "Parts we are looking for front hub" in seen
        assert "Secret" not in seen and "9.99" not in seen

    def test_the_owner_is_told_and_puts_it_aside(self, owner, helper, heron, need):
        address = make(owner, heron, parts="on")
        answer = self.have(address, need, guest=Browserless(headers={"user-agent": "Mozilla (Android; Mobile)"}))
        assert JournalLine.objects.get(act="share_have").device == "phone"
        assert (answer.status_code, answer["Location"]) == (303, address)
        told = words(owner.get("/").content.decode())
        assert "front hub, Heron Ravi: “A good one, 07700”" in told
        assert "Ravi" not in helper.get("/").content.decode()
        assert owner.press(f"/offers/{PartOffer.objects.get().pk}/seen/").status_code == 303
        owner.get("/")
        assert "07700" not in owner.get("/").content.decode()

    def test_a_second_tap_is_none(self, owner, heron, need):
        address, key = make(owner, heron, parts="on"), "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12"
        answers = [self.have(address, need, key=key).status_code for _ in range(3)]
        assert answers == [303] * 3 and PartOffer.objects.count() == 1

    def test_what_is_not_sought_is_not_answered(self, owner, cast, heron, need):
        address = make(owner, heron, parts="on")
        other = NeedFactory(job=JobFactory(vehicle=VehicleFactory(garage=cast.garage)), what="a seat")
        ordered = NeedFactory(job=heron.jobs.get(), what="hose", expected_on=date(2027, 3, 9))
        for wrong in (other, ordered):
            assert self.have(address, wrong).status_code == 404
        assert self.have(make(owner, heron), need).status_code == 404
        assert not PartOffer.objects.exists()

    @pytest.mark.parametrize("wrong", [{"name": ""}, {"line": ""}, {"name": "a" * 61}, {"line": "a" * 201}])
    def test_what_is_wrong_is_said_and_what_was_typed_is_kept(self, owner, heron, need, wrong):
        answer = self.have(make(owner, heron, parts="on"), need, **wrong)
        kept = "A good one" if "name" in wrong else 'value="Ravi"'
        assert answer.status_code == 422 and kept in answer.content.decode()
        assert not PartOffer.objects.exists()

    def test_too_many_wait(self, owner, heron, need):
        address = make(owner, heron, parts="on")
        assert [self.have(address, need).status_code for _ in range(13)] == [303] * 12 + [422]

    def test_revoked_it_takes_no_answer(self, owner, heron, need):
        address = make(owner, heron, parts="on")
        owner.press(f"/share/{Share.objects.get().pk}/revoke/")
        assert self.have(address, need).status_code == 404

    def test_another_garages_owner_puts_nothing_aside(self, owner, stranger, helper, heron, need):
        self.have(make(owner, heron, parts="on"), need)
        path = f"/offers/{PartOffer.objects.get().pk}/seen/"
        assert (stranger.press(path).status_code, helper.press(path).status_code) == (404, 403)


class TestAPassPhrase:
    def test_is_asked_first_and_previews_nothing(self, owner, cast, heron):
        chosen = photo_on(VehiclePhoto, heron, cast, "The car")
        address, guest = make(owner, heron, phrase=PHRASE, photos=[chosen.pk]), Browserless()
        locked = read(address, guest)
        for secret in ("Heron", "Weld", "Not fit", cast.garage.name, "og:", "The car"):
            assert secret not in locked
        assert guest.get(f"{address}photos/{chosen.pk}.jpg").status_code == 404
        assert guest.post(address, {"phrase": PHRASE}).status_code == 303
        opened = read(address, guest)
        assert "Heron" in opened and "og:" not in opened
        assert guest.get(f"{address}photos/{chosen.pk}.jpg").status_code == 200
        assert "Heron" not in read(address)  # on another phone it is asked again

    def test_is_kept_as_a_hash_alone(self, owner, heron):
        make(owner, heron, phrase=PHRASE)
        assert PHRASE not in str(Share.objects.values().get())

    def test_tries_are_limited(self, owner, heron, monkeypatch):
        address, guest = make(owner, heron, phrase=PHRASE), Browserless()
        for _ in range(5):
            assert "That is not the pass-phrase." in guest.post(address, {"phrase": "wrong"}).content.decode()
        waits = guest.post(address, {"phrase": PHRASE})
        assert waits.status_code == 422 and "Too many tries: wait 1 min" in waits.content.decode()
        monkeypatch.setattr("garage.clock.now", lambda: NOW + timedelta(seconds=61))
        assert guest.post(address, {"phrase": PHRASE}).status_code == 303

    def test_of_one_link_opens_no_other(self, owner, heron):
        first, second, guest = make(owner, heron, phrase=PHRASE), make(owner, heron, phrase=PHRASE), Browserless()
        guest.post(first, {"phrase": PHRASE})
        for name, cookie in list(guest.cookies.items()):
            cookie["path"] = "/"
            guest.cookies[name.replace(name, f"shared-{Share.objects.last().pk}")] = cookie.value
        assert "asks for a pass-phrase" in read(second, guest)

    @pytest.mark.parametrize(("phrase", "status"), [("a" * 5, 422), ("a" * 6, 201), ("a" * 100, 201), ("a" * 101, 422)])
    def test_how_long_it_may_be(self, owner, heron, phrase, status):
        assert owner.press(f"/share/add/?vehicle={heron.pk}", {"days": "1", "phrase": phrase}).status_code == status


class TestWhatItsMakerIsTold:
    def test_what_it_will_show_stands_before_it_is_made(self, owner, heron):
        told = words(owner.get(f"/share/add/?vehicle={heron.pk}").content.decode())
        assert "Heron : Not fit to run" in told or "Heron: Not fit to run" in told
        assert "Weld the arm, to do" in told

    def test_the_preview_has_the_name_and_the_verdict_alone(self, owner, heron):
        seen = read(make(owner, heron))
        tags = re.findall(r'property="og:(\w+)"\s+content="([^"]*)"', seen)
        assert [name for name, _ in tags] == ["title", "description"]
        assert tags[0][1] == "Heron" and tags[1][1].startswith("Not fit to run")
        assert "Weld" not in tags[1][1]


def test_photos_and_parts_cost_no_query_each(owner, cast, heron):
    event = EventFactory(garage=cast.garage)
    EntryFactory(event=event, vehicle=heron)
    NeedFactory(job=heron.jobs.get(), what="front hub")
    shown = [photo_on(VehiclePhoto, heron, cast, "one").pk]
    page = owner.press(f"/share/add/?event={event.pk}", {"days": "14", "parts": "on", "photos": shown})
    address = re.search(r"/shared/[\w-]+/", page.content.decode())[0]
    one = queries(Browserless(), address)
    for number in range(4):
        NeedFactory(job=heron.jobs.get(), what=f"part {number}")
        shown.append(photo_on(VehiclePhoto, heron, cast, "more").pk)
    Share.objects.update(photos=shown)
    assert queries(Browserless(), address) == one
