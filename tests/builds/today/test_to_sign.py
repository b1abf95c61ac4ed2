"""Finished work that waits for a second pair of eyes is on today, as the verdict has it."""

import uuid

import pytest

from builds.steps.actions import steps
from builds.verdict.facts.verdict import verdict_of
from tests.conftest import queries
from tests.factories import NOW, HoldPointFactory, JobFactory, LinkFactory, VehicleFactory


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def today(client):
    return client.get("/").context["view"]


def done(car, hands, **more):
    job = JobFactory(vehicle=car, **more)
    steps.finish(job, by=hands, at=NOW)
    return job


def test_what_the_verdict_wants_signed_waits_for_eyes_though_a_recipe_made_it(owner, helper, car, now, cast):
    arm = {"systems": ["steering"], "recipe": "own", "rank": "safety"}
    batches = [uuid.uuid4() for _ in range(3)]
    done(car, cast.helper, title="Bolt it up", kinds=["joint_opened"], batch=batches[0], **arm)
    done(car, cast.helper, title="Look at it", batch=batches[0], **arm)
    looked_at = done(car, cast.helper, kinds=["joint_opened"], batch=batches[1], **arm)
    after = JobFactory(vehicle=car, batch=batches[1], **arm)
    HoldPointFactory(job=after)
    LinkFactory(before=looked_at, after=after)
    done(car, cast.helper, title="Only paint", systems=["steering"], rank="wanted",
         lowered_because="colour only")  # fmt: skip
    done(car, cast.helper, title="Fan", systems=["cooling"])
    gone = VehicleFactory(garage=cast.garage, gone_at=NOW)
    done(gone, cast.helper, kinds=["joint_opened"], batch=batches[2], **arm)
    rows = today(owner).to_sign
    titles = [row.card.title for row in rows]
    assert titles == ["Bolt it up", "Only paint"]
    assert not any(row.may_sign for row in today(helper).to_sign)
    named = [reason.sentence for reason in verdict_of(car, NOW).reasons]
    assert [f"“{title}” is done, but nobody has signed it." in named for title in titles] == [True] * 2
    owner.press(rows[0].url, {"next": "/"})
    assert [row.card.title for row in today(owner).to_sign] == ["Only paint"]


def test_a_point_that_asks_for_a_value_is_not_signed_by_one_tap(owner, car, now, cast):
    job = JobFactory(vehicle=car, rank="safety")
    point = HoldPointFactory(job=job, asks="Gap", unit="mm")
    steps.finish(job, by=cast.helper, at=NOW)
    page = owner.get("/").content.decode()
    assert f'href="/hold-points/{point.pk}/sign/"' in page
    assert f'action="/hold-points/{point.pk}/sign/"' not in page


def test_one_job_to_sign_and_twenty_take_the_same_queries(owner, car, now, cast):
    def more():
        done(car, cast.helper, systems=["steering"], rank="safety", recipe="own",
             kinds=["joint_opened"], batch=uuid.uuid4())  # fmt: skip

    more()
    few = queries(owner, "/")
    for _ in range(19):
        more()
    assert queries(owner, "/") == few
    assert len(today(owner).to_sign) == 20


def test_a_button_that_says_who_looked_stands_only_for_whoever_can_write_somebody_down(owner, helper, car, now, cast):
    work = {"systems": ["steering"], "rank": "safety", "kinds": ["joint_opened"], "made_by": cast.owner}
    row = done(car, cast.helper, title="Bolt it up", **work)
    (mine,), (worked,) = today(owner).to_sign, today(helper).to_sign
    assert (mine.writes, mine.card.kicker) == ("Say who looked", f"waits for {cast.owner}")
    assert (worked.writes, worked.card.kicker) == ("", f"waits for {cast.owner}, who signs in for it")
    assert f'href="/jobs/{row.pk}/sign/"' not in helper.get("/").content.decode()
    page = helper.get(f"/jobs/{row.pk}/").content.decode()
    assert f'href="/jobs/{row.pk}/sign/"' not in page and f"{cast.owner}, who signs in for it" in page
    assert "Say who looked, and sign" in owner.get(f"/jobs/{row.pk}/").content.decode()
    pinned = done(car, cast.owner, title="Pin it", **work)
    assert [line.writes for line in today(owner).to_sign] == ["Say who looked", "Say who from outside looked"]
    link = f'href="/people/{cast.helper.pk}/">{cast.helper}: sign-in link</a>'
    assert link in owner.get("/").content.decode()
    assert link in owner.get(f"/jobs/{pinned.pk}/").content.decode()
    assert "sign-in link" not in helper.get("/").content.decode()
