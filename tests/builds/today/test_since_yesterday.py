"""What Today tells of since yesterday."""

from datetime import timedelta
from uuid import uuid4

import pytest

from builds.steps.actions import steps
from builds.today.pages.news import news_since
from builds.work.facts.work import load_work
from builds.work.models.job import Job
from tests.factories import (
    NOW,
    JobFactory,
    VehicleFactory,
)
from tests.pages import words


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def today(client):
    answer = client.get("/")
    assert answer.status_code == 200
    return answer.context["view"]


def test_since_yesterday_steps_jobs_and_things_found(owner, helper, car, now, cast):
    old = JobFactory(vehicle=car, title="Old", made_at=NOW - timedelta(days=9))
    steps.finish(old, by=cast.helper, at=NOW - timedelta(hours=20))
    steps.finish(
        JobFactory(vehicle=car, title="Older", made_at=NOW - timedelta(days=9)),
        by=cast.helper,
        at=NOW - timedelta(days=3),
    )
    JobFactory(vehicle=car, title="New", made_by=cast.owner, made_at=NOW - timedelta(hours=1))
    helper.press(f"/jobs/{old.pk}/found/", {"line": "Chafed hose"})
    lines = [(each.who, each.did, each.what) for each in today(owner).changes.lines]
    assert lines == [
        ("Tove", "found", "“Chafed hose”"),
        ("Ines", "wrote down", "“New”"),
        ("Tove", "finished", "“Old”"),
    ]


def test_what_was_found_and_could_hurt_somebody_stands_at_the_head_until_it_is_done(owner, helper, car, now, cast):
    old = JobFactory(vehicle=car, title="Old")
    helper.press(f"/jobs/{old.pk}/found/", {"line": "Crack in the lower arm", "hurts": "on"})
    helper.press(f"/jobs/{old.pk}/found/", {"line": "Scuffed door card"})
    page = owner.get("/").content.decode()
    assert "Tove found “Crack in the lower arm” on Heron, 17:00." in words(page.split("masking")[0])
    assert [line.what for line in owner.get("/").context["view"].changes.found] == ["“Crack in the lower arm”"]
    steps.drop(Job.objects.get(title="Crack in the lower arm"), by=cast.owner, at=NOW, reason="A scratch in the paint")
    assert not owner.get("/").context["view"].changes.found


def test_what_was_put_on_stays_so_many_and_what_a_reading_opened_is_told_by_it(car, now, cast):
    batch = uuid4()
    put_on = {"vehicle": car, "batch": batch, "recipe": "wheel-bearing-studs", "made_by": cast.owner, "made_at": NOW}
    steps.finish(JobFactory(title="Wheel off", **put_on), by=cast.owner, at=NOW)
    JobFactory(title="Wheel on", **put_on)
    for title in ("Mend what failed: thread engagement", "Set it within its limits: camber"):
        JobFactory(vehicle=car, title=title, made_by=cast.owner, made_at=NOW)
    JobFactory(vehicle=VehicleFactory(garage=cast.garage, gone_at=NOW), title="Gone", made_at=NOW)
    news = news_since(NOW - timedelta(hours=1), cast.garage, load_work(cast.garage, NOW), [cast.owner])
    assert [f"{line.who} {line.did} {line.what}" for line in news.lines] == [
        "Ines finished “Wheel off”",
        "Ines found that thread engagement failed: a job to mend it",
        "Ines found that camber is out of its limits: a job to set it",
        "Ines put on 2 jobs of Wheel bearing and studs",
    ]
