"""The search from the page: who may, once a tap, how far it is, stopped."""

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
    ("who", "looks", "searches"),
    [
        ("owner", 200, 303),
        ("helper", 200, 303),
        ("viewer", 200, 403),
        ("stranger", 200, 422),
        ("nobody", 302, 302),
    ],
)
def test_everyone_of_the_garage_looks_and_those_who_work_search(cast, car, who, looks, searches):
    job(car, cast)
    client = cast.client(who)
    assert client.get("/plan/").status_code == looks
    assert Plan.objects.in_garage(cast.garage).count() == (who in ("owner", "helper", "viewer"))
    assert client.press("/plan/search/", {"seconds": "5"}).status_code == searches
    assert Search.objects.in_garage(cast.garage).count() == (who in ("owner", "helper"))


def test_a_viewer_sees_no_button(cast, car, viewer):
    job(car, cast)
    planned(cast.garage)
    assert "Fit the fan" in text(viewer)
    assert "/plan/search/" not in text(viewer)


def test_a_stranger_cannot_stop_a_search(cast, car, stranger):
    job(car, cast)
    row = planned(cast.garage).row
    search = Search.objects.create(garage=cast.garage, began_at=NOW, seen_at=NOW, budget_seconds=5, plan=row)
    assert stranger.press(f"/plan/searches/{search.pk}/stop/").status_code == 404
    assert stranger.get(f"/plan/searches/{search.pk}/").status_code == 404


def test_a_search_runs_beside_the_page_and_a_double_tap_starts_one(
    cast, car, owner, django_capture_on_commit_callbacks
):
    job(car, cast)
    assert "Look for a better plan" in text(owner)
    key = {"key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12", "seconds": "20"}
    with django_capture_on_commit_callbacks():
        first, second = owner.post("/plan/search/", key), owner.post("/plan/search/", key)
    assert (first.status_code, second.status_code) == (303, 303)
    assert Plan.objects.in_garage(cast.garage).count() == 1
    assert Search.objects.get().budget_seconds == 20
    body = text(owner)
    assert "Stop and keep the best" in body
    assert 'hx-trigger="every 1s"' in body
    assert "/plan/search/" not in body
    answer = owner.press("/plan/search/", {"seconds": "5"})
    assert answer.status_code == 422
    assert "A search is already running." in answer.content.decode()


def test_without_a_plan_there_is_nothing_to_better(cast, owner):
    answer = owner.press("/plan/search/", {"seconds": "5"})
    assert answer.status_code == 422
    assert "There is no plan yet: write jobs down, and it is made." in answer.content.decode()


def test_a_budget_that_is_not_offered_is_refused_at_the_field(cast, car, owner):
    job(car, cast)
    answer = owner.press("/plan/search/", {"seconds": "9999"})
    assert answer.status_code == 422
    assert answer.context["form"].errors["seconds"] == ["Choose 5, 20 or 60 seconds."]
    assert not Search.objects.exists()


def test_progress_asks_again_until_it_is_over_then_draws_the_page_anew(cast, car, owner):
    job(car, cast)
    search = Search.objects.create(
        garage=cast.garage,
        began_at=NOW - 3 * HOUR / 3600,
        seen_at=NOW,
        budget_seconds=20,
        tried=4_120,
        first_score=[0, 0, 3, 0, 900],
        best_score=[0, 0, 1, 0, 950],
        plan=planned(cast.garage).row,
    )
    path, asked = f"/plan/searches/{search.pk}/", {"HTTP_HX_REQUEST": "true"}
    part = owner.get(path, **asked).content.decode()
    assert "4,120 plans tried; best so far: late needed work 1." in part
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
