"""Planning from the page: who may, once a tap, the search that follows, the plan it offers."""

from datetime import timedelta

import pytest

from builds.plan.models import Plan, Search
from tests.builds.plan.plan_kit import evenings, job, planned, text
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)


@pytest.fixture
def car(cast):
    evenings(cast.owner)
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.mark.parametrize(
    ("who", "look", "plan"),
    [
        ("owner", 200, 303),
        ("helper", 200, 303),
        ("viewer", 200, 403),
        ("stranger", 200, 303),
        ("nobody", 302, 302),
    ],
)
def test_everyone_of_the_garage_looks_and_those_who_work_plan(cast, car, who, look, plan):
    job(car, cast)
    client = cast.client(who)
    assert client.get("/plan/").status_code == look
    assert client.press("/plan/make/", {"seconds": "5"}).status_code == plan
    assert Plan.objects.in_garage(cast.garage).count() == (who in ("owner", "helper"))


def test_a_viewer_sees_no_button(cast, car, viewer):
    job(car, cast)
    planned(cast.garage)
    assert "Fit the fan" in text(viewer)
    assert "/plan/make/" not in text(viewer)


def test_a_stranger_can_neither_stop_nor_take(cast, car, stranger):
    job(car, cast)
    row = planned(cast.garage).row
    search = Search.objects.create(garage=cast.garage, began_at=NOW, seen_at=NOW, budget_seconds=5, plan=row)
    assert stranger.press(f"/plan/{row.pk}/take/").status_code == 404
    assert stranger.press(f"/plan/searches/{search.pk}/stop/").status_code == 404
    assert stranger.get(f"/plan/searches/{search.pk}/").status_code == 404


def test_planning_goes_on_to_search_and_a_double_tap_plans_once(cast, car, owner, django_capture_on_commit_callbacks):
    job(car, cast)
    key = {"key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12", "seconds": "20"}
    with django_capture_on_commit_callbacks():
        first, second = owner.post("/plan/make/", key), owner.post("/plan/make/", key)
    assert (first.status_code, second.status_code) == (303, 303)
    assert Plan.objects.in_garage(cast.garage).count() == 1
    assert Search.objects.get().budget_seconds == 20
    body = text(owner)
    assert "Stop and keep the best" in body
    assert 'hx-trigger="every 1s"' in body
    assert "/plan/make/" not in body
    answer = owner.press("/plan/make/", {"seconds": "5"})
    assert answer.status_code == 422
    assert "A search is already running." in answer.content.decode()


def test_a_budget_that_is_not_offered_is_refused_at_the_field(cast, car, owner):
    job(car, cast)
    answer = owner.press("/plan/make/", {"seconds": "9999"})
    assert answer.status_code == 422
    assert answer.context["form"].errors["seconds"] == ["Choose 5, 20 or 60 seconds."]
    assert not Plan.objects.exists()


def test_progress_asks_again_until_it_is_over_then_draws_the_page_anew(cast, car, owner):
    job(car, cast)
    search = Search.objects.create(
        garage=cast.garage,
        began_at=NOW - 3 * HOUR / 3600,
        seen_at=NOW,
        budget_seconds=20,
        tried=412,
        first_score=[0, 0, 3, 0, 900],
        best_score=[0, 0, 1, 0, 950],
        plan=planned(cast.garage).row,
    )
    path, asked = f"/plan/searches/{search.pk}/", {"HTTP_HX_REQUEST": "true"}
    part = owner.get(path, **asked).content.decode()
    assert "412 tries; best so far: late needed work 1." in part
    assert "Gained: late needed work 1 instead of 3." in part
    assert 'value="3" max="20"' in part
    assert part.count("<form") == 0
    assert owner.get(path).status_code == 303
    assert owner.press(f"{path}stop/").status_code == 303
    search.refresh_from_db()
    assert search.stop_asked is True
    Search.objects.update(ended_at=NOW)
    over = owner.get(path, **asked).content.decode()
    assert 'hx-get="/plan/"' in over
    assert "every 1s" not in over


def test_a_better_plan_that_came_too_late_is_offered_and_taken(cast, car, owner):
    job(car, cast)
    row = planned(cast.garage).row
    offered = Plan.objects.create(
        garage=cast.garage,
        made_at=NOW + HOUR,
        use="tried",
        problem=row.problem,
        answer=row.answer,
        made_from=row.made_from,
    )
    Search.objects.create(
        garage=cast.garage,
        began_at=NOW,
        seen_at=NOW,
        ended_at=NOW,
        budget_seconds=5,
        plan=offered,
    )
    assert "Take it all the same" in text(owner)
    assert owner.press(f"/plan/{offered.pk}/take/").status_code == 303
    assert Plan.objects.in_garage(cast.garage).shown().first() == offered
