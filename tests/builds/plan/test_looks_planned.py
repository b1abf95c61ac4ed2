"""The plan, and every page, of work that stops at a hold point until somebody else is in to look at it."""

from datetime import timedelta

import pytest

from builds.plan.facts.stored import shown
from builds.share.pages.shared import shared_cars
from builds.steps.actions import steps
from builds.work.facts.left import minutes_left
from builds.work.facts.work import load_work
from garage.actions import shares
from tests.builds.plan.plan_kit import enter, evenings, followed, job, starts
from tests.factories import NOW, HoldPointFactory, LinkFactory, MembershipFactory, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("now")
HOUR = timedelta(hours=1)


@pytest.fixture
def hub(cast):
    """Ines is in every evening, Kev tomorrow; nobody else may say that he looked."""
    kev = MembershipFactory(garage=cast.garage, person__name="Kev", works=True)
    cast.helper.works = cast.viewer.works = False
    cast.helper.save()
    cast.viewer.save()
    evenings(cast.owner)
    evenings(kev, [2], 19, 22)
    car = VehicleFactory(garage=cast.garage, name="Mule")
    enter(car, NOW + timedelta(days=6))
    hub = job(car, cast, "Refit hub", likely_minutes=60, systems=["wheels"], pinned_at=NOW + HOUR)
    LinkFactory(before=hub, after=job(car, cast, "Rear pads", likely_minutes=60))
    HoldPointFactory(job=hub, what="Hub nut torqued")
    return hub


def test_what_follows_waits_for_whoever_may_look(owner, cast, hub):
    plan = followed(cast.garage)
    assert starts(plan)["Refit hub"][0] == "Tue 18:00" and starts(plan)["Rear pads"][0] == "Wed 19:00"
    why = plan.reasons[next(name for name, one in plan.jobs.items() if one.title == "Rear pads")].sentence
    assert why == "“Rear pads” waits for “Refit hub”, done Tue 19:00, then for Kev, who looks at it Wed 19:00."
    assert "then for Kev, who looks at it Wed 19:00" in words(owner.get("/plan/").content.decode())


def test_nothing_but_a_look_is_left_on_every_page(owner, cast, hub):
    steps.start(hub, by=cast.owner, at=NOW - 2 * HOUR)
    hub.refresh_from_db()
    steps.finish(hub, by=cast.owner, at=NOW - HOUR, kinds=["wheel_off"])
    plan = followed(cast.garage)
    assert starts(plan)["Refit hub"] == ("Wed 19:00", "Wed 19:00")
    assert starts(plan)["Rear pads"][0] == "Wed 19:00"
    assert minutes_left(hub.vehicle.garage, NOW) == {hub.vehicle_id: 60}
    done = "done, and waits for a second pair of eyes"
    for path in (f"/jobs/{hub.pk}/", f"/cars/{hub.vehicle_id}/", "/plan/", "/"):
        page = words(owner.get(path).content.decode())
        assert "left half done" not in page and "held half done" not in page, path
    assert f"The work: {done}" in words(owner.get(f"/jobs/{hub.pk}/").content.decode())
    assert f"“Refit hub” is {done}: take its joints as loose." in words(
        owner.get(f"/cars/{hub.vehicle_id}/").content.decode()
    )
    plan_page = words(owner.get("/plan/").content.decode())
    assert "Waits for Kev, who looks at it Wed 19:00" in plan_page
    assert "a second pair of eyes" in plan_page.split("Waits for Kev")[0]
    share = shares.make(by=cast.owner, at=NOW, days=7, vehicle=hub.vehicle)[0]
    (shared,) = shared_cars(share, load_work(cast.garage, NOW), shown(cast.garage))
    assert (shared.next, shared.looked_for, shared.left) == (("Rear pads",), ("Refit hub",), 1)
