"""What guests may do by a link: comment, and say that a job is done, which waits for a yes; all cars, days ahead."""

import re
from datetime import timedelta

import pytest

from builds.steps.actions import comments, guest_ticks
from builds.work.models.comment import JobComment
from builds.work.models.guest_tick import GuestTick
from garage.actions.refused import Refused
from garage.models import JournalLine, Share
from tests.conftest import Browserless, queries
from tests.factories import NOW, EntryFactory, EventFactory, JobFactory, NeedFactory, VehicleFactory
from tests.pages import words

RAVI = {"name": "Ravi"}


@pytest.fixture
def heron(cast, now):
    """With a job for safety, one that anybody may tick, and one of which nobody said what it touches."""
    car = VehicleFactory(garage=cast.garage, name="Heron")
    JobFactory(vehicle=car, title="Weld the arm", rank="safety", systems=["steering"], made_by=cast.owner)
    JobFactory(vehicle=car, title="Fit the fan", rank="wanted", systems=["cooling"], made_by=cast.owner)
    return car


def job_called(title):
    return next(job for job in JobFactory._meta.model.objects.all() if job.title == title)


def make(owner, what, **sent):
    page = owner.press(f"/share/add/?{what}", {"days": "14", **sent})
    assert page.status_code == 201, page.context["form"].errors
    return re.search(r"/shared/[\w-]+/", page.content.decode())[0]


def read(address, client=None):
    return words((client or Browserless()).get(address).content.decode())


class TestATick:
    def test_waits_for_a_yes_which_is_to_finish_the_job(self, owner, helper, viewer, cast, heron):
        fan = job_called("Fit the fan")
        address, guest = make(owner, f"vehicle={heron.pk}", may_tick=[fan.pk]), Browserless()
        assert guest.press(f"{address}tick/{fan.pk}/", {**RAVI, "line": "With the new bolts"}).status_code == 303
        fan.refresh_from_db()
        assert fan.state == "open"
        assert "Ravi says that it is done: it waits for a yes." in read(address)
        seen = words(helper.get("/").content.decode())
        assert "A guest says it is done" in seen and "Ravi, by a link: With the new bolts" in seen
        assert "A guest says it is done" not in words(viewer.get("/").content.decode())
        assert helper.press(f"/jobs/{fan.pk}/finish/", {"stood": "open"}).status_code == 303
        tick = GuestTick.objects.get()
        assert (tick.state, tick.answered_by, tick.answered_at) == ("taken", cast.helper, NOW)
        assert "waits for a yes" not in read(address)
        line = JournalLine.objects.get(act="share_tick")
        assert (line.guest, line.said) == ("Ravi", "With the new bolts")

    def test_that_is_not_so_is_answered_and_can_be_said_again(self, owner, helper, viewer, stranger, heron):
        fan = job_called("Fit the fan")
        address = make(owner, f"vehicle={heron.pk}", may_tick=[fan.pk])
        Browserless().press(f"{address}tick/{fan.pk}/", RAVI)
        assert Browserless().press(f"{address}tick/{fan.pk}/", RAVI).status_code == 422
        tick = GuestTick.objects.get()
        refuse = f"/ticks/{tick.pk}/refuse/"
        assert [client.press(refuse).status_code for client in (viewer, stranger, helper)] == [403, 404, 303]
        assert "I have done this" in read(address) and "A guest says" not in words(helper.get("/").content.decode())
        assert Browserless().press(f"{address}tick/{fan.pk}/", RAVI).status_code == 303

    def test_is_never_of_work_for_safety(self, owner, cast, heron):
        arm, fan = job_called("Weld the arm"), job_called("Fit the fan")
        answer = owner.press(f"/share/add/?vehicle={heron.pk}", {"days": "3", "may_tick": [arm.pk]})
        assert answer.status_code == 422 and str(arm.pk) not in dict(answer.context["form"].fields["may_tick"].choices)
        address = make(owner, f"vehicle={heron.pk}", may_tick=[fan.pk])
        assert Browserless().press(f"{address}tick/{arm.pk}/", RAVI).status_code == 404
        share = Share.objects.get()
        share.may_tick = [arm.pk, fan.pk]
        share.save()
        fan.rank = "safety"
        fan.save()
        for job in (arm, fan):
            assert Browserless().press(f"{address}tick/{job.pk}/", RAVI).status_code == 404
            with pytest.raises(Refused, match="Work for safety is finished by those who work here"):
                guest_ticks.say(share, job, name="Ravi", line="", key="k", at=NOW)

    def test_of_a_link_that_may_not_is_not_found(self, owner, cast, heron):
        fan, address = job_called("Fit the fan"), make(owner, f"vehicle={heron.pk}")
        assert Browserless().press(f"{address}tick/{fan.pk}/", RAVI).status_code == 404
        with pytest.raises(Refused, match="not ticked here"):
            guest_ticks.say(Share.objects.get(), fan, name="Ravi", line="", key="k", at=NOW)

    def test_is_told_once_for_each_button_and_asks_for_a_name(self, owner, heron):
        fan = job_called("Fit the fan")
        address = make(owner, f"vehicle={heron.pk}", may_tick=[fan.pk])
        assert Browserless().press(f"{address}tick/{fan.pk}/", {"name": ""}).status_code == 422
        sent = {**RAVI, "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12"}
        assert [Browserless().post(f"{address}tick/{fan.pk}/", sent).status_code for _ in range(2)] == [303, 303]
        assert Browserless().post(f"{address}tick/{fan.pk}/", RAVI).status_code == 422
        assert GuestTick.objects.count() == 1


class TestAComment:
    def test_stands_with_the_job_and_on_its_own_link_alone(self, owner, helper, cast, heron):
        fan = job_called("Fit the fan")
        address, other = (make(owner, f"vehicle={heron.pk}", may_comment="on") for _ in range(2))
        comments.comment(fan, "Between us", by=cast.owner, at=NOW)
        said = {**RAVI, "job": fan.pk, "text": "<b>Which</b> bolts?"}
        assert Browserless().press(f"{address}comment/", said).status_code == 303
        assert "&lt;b&gt;Which&lt;/b&gt; bolts?" in read(address) and "Between us" not in read(address)
        assert "bolts?" not in read(other)
        assert "Ravi, a guest" in words(helper.get(f"/jobs/{fan.pk}/").content.decode())
        assert JournalLine.objects.get(act="share_comment").guest == "Ravi"
        assert owner.press(f"/comments/{JobComment.objects.get(guest='Ravi').pk}/delete/").status_code == 303

    def test_is_of_a_job_that_the_page_shows(self, owner, cast, heron):
        address = make(owner, f"vehicle={heron.pk}", may_comment="on")
        elsewhere = JobFactory(vehicle=VehicleFactory(garage=cast.garage), title="Another")
        for job in (elsewhere.pk, 0, "x"):
            answer = Browserless().press(f"{address}comment/", {**RAVI, "job": job, "text": "Hm"})
            assert answer.status_code == 422 and "Hm" in answer.content.decode()

    def test_of_a_link_that_may_not_is_refused(self, owner, cast, heron):
        address, fan = make(owner, f"vehicle={heron.pk}"), job_called("Fit the fan")
        said = {**RAVI, "job": fan.pk, "text": "Hm"}
        assert Browserless().press(f"{address}comment/", said).status_code == 404
        with pytest.raises(Refused, match="Nothing can be said on this page"):
            comments.comment_as_guest(Share.objects.get(), fan, "Hm", name="Ravi", key="k", at=NOW)

    def test_behind_a_pass_phrase_nothing_is_said_or_ticked(self, owner, heron):
        fan = job_called("Fit the fan")
        sent = {"may_comment": "on", "may_tick": [fan.pk], "phrase": "under the bench"}
        address, guest = make(owner, f"vehicle={heron.pk}", **sent), Browserless()
        said = {**RAVI, "job": fan.pk, "text": "Hm"}
        for path, told in ((f"{address}comment/", said), (f"{address}tick/{fan.pk}/", RAVI)):
            assert guest.press(path, told).status_code == 404
        guest.post(address, {"phrase": "under the bench"})
        assert guest.press(f"{address}comment/", said).status_code == 303


def test_a_revoked_or_expired_link_takes_nothing(owner, heron, monkeypatch):
    fan = job_called("Fit the fan")
    address = make(owner, f"vehicle={heron.pk}", may_comment="on", may_tick=[fan.pk])
    owner.press(f"/share/{Share.objects.get().pk}/revoke/")
    late = make(owner, f"vehicle={heron.pk}", may_comment="on", may_tick=[fan.pk])
    monkeypatch.setattr("garage.clock.now", lambda: NOW + timedelta(days=15))
    for dead in (address, late):
        for path in ("", "comment/", f"tick/{fan.pk}/"):
            assert Browserless().press(f"{dead}{path}", {**RAVI, "job": fan.pk, "text": "Hm"}).status_code == 404
    assert not JobComment.objects.exists() and not GuestTick.objects.exists()


def test_all_cars_stand_on_one_page_and_their_days_ahead(owner, helper, cast, heron):
    VehicleFactory(garage=cast.garage, name="Badger")
    VehicleFactory(garage=cast.garage, name="Sold", gone_at=NOW)
    theirs = VehicleFactory(garage=cast.stranger.garage, name="Theirs")
    fair = EventFactory(garage=cast.garage, name="Saltmarsh")
    fair.people.add(cast.owner)
    EntryFactory(event=fair, vehicle=heron)
    NeedFactory(job=job_called("Fit the fan"), what="front hub", expected_on=(NOW + timedelta(days=2)).date())
    told = words(owner.get("/share/add/?fleet=1").content.decode())
    assert "Share the status of all cars" in told and "Saltmarsh" in told and "front hub" in told
    address = make(owner, "fleet=1", calendar="on")
    seen = read(address)
    assert "All cars" in seen and "Heron" in seen and "Badger" in seen
    assert "Sold" not in seen and theirs.name not in seen
    assert "Part due: front hub, Heron" in seen and "Saltmarsh" in seen
    for private in ("Leave home", "leaves", "Ines", "Tove", "In the garage"):
        assert private not in seen
    assert "The days ahead" not in read(make(owner, f"vehicle={heron.pk}"))
    assert "Status of all cars" in words(owner.get("/links/").content.decode())
    assert helper.get("/share/add/?fleet=1").status_code == 403


def test_days_ahead_of_one_car_tell_of_no_other(owner, cast, heron):
    badger = VehicleFactory(garage=cast.garage, name="Badger")
    fair, other = (EventFactory(garage=cast.garage, name=name) for name in ("Saltmarsh", "Kiln Lane"))
    for event, car in ((fair, heron), (fair, badger), (other, badger)):
        EntryFactory(event=event, vehicle=car)
    seen = read(make(owner, f"vehicle={heron.pk}", calendar="on"))
    assert "Saltmarsh" in seen and "Kiln Lane" not in seen and "Badger" not in seen


def test_more_of_it_costs_no_query_each(owner, cast, heron):
    fan = job_called("Fit the fan")
    address = make(owner, "fleet=1", calendar="on", may_comment="on", may_tick=[fan.pk])
    comments.comment_as_guest(Share.objects.get(), fan, "Hm", name="Ravi", key="k", at=NOW)
    one = queries(Browserless(), address)
    more = [JobFactory(vehicle=heron, title=f"Fan {number}", systems=["cooling"]).pk for number in range(4)]
    Share.objects.update(may_tick=[fan.pk, *more])
    for number in range(4):
        comments.comment_as_guest(Share.objects.get(), fan, "Hm", name="Ravi", key=str(number), at=NOW)
    assert queries(Browserless(), address) == one
