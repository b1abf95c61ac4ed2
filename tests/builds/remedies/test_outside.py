"""No planning goes on while a write has the database: what is tried or done is planned once it is committed."""

import pytest
from django.db import connection

from builds.plan.actions import plans, searches
from builds.plan.facts.stored import shown
from builds.plan.models import Plan
from builds.planner.model import Model
from builds.remedies.deeds.session import SessionDeed
from tests.builds.remedies.remedy_kit import TOMORROW, address, late_entry, lonely_car
from tests.conftest import make_cast

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.usefixtures("now")]


@pytest.fixture
def cast(transactional_db):
    return make_cast()


@pytest.fixture
def late(cast):
    return late_entry(cast, lonely_car(cast))


@pytest.fixture
def models(monkeypatch, late):
    """Whether a transaction was open, of each model of a problem that is made from now on."""
    seen, made = [], Model.__init__

    def init(self, problem):
        seen.append(connection.in_atomic_block)
        made(self, problem)

    monkeypatch.setattr(Model, "__init__", init)
    return seen


def code(cast):
    return SessionDeed(cast.owner.pk, 1080, 1320, TOMORROW).code


def test_what_if(cast, late, models):
    owner, wall = cast.client("owner"), shown(cast.garage).row
    data = {"person": cast.owner.pk, "kind": "session", "day": TOMORROW, "hours": "18:00-22:00"}
    answer = owner.press("/plan/what-if/", data)
    assert answer.status_code == 303
    assert models == []
    assert all(row.answer == {} for row in Plan.objects.filter(use="tried"))
    assert owner.get(answer.url).status_code == 200
    assert models and not any(models)
    assert all(row.answer["placed"] for row in Plan.objects.filter(use="tried"))
    assert shown(cast.garage).row == wall
    models.clear()
    assert owner.get(answer.url).status_code == 200
    assert models == []
    assert owner.press(f"{answer.url}keep/").status_code == 303
    assert models and not any(models)


def test_what_is_done_for_a_late_car(cast, late, models):
    owner = cast.client("owner")
    assert owner.press(address(late, "apply/"), {"do": code(cast)}).status_code == 303
    assert models and not any(models)
    assert owner.get(address(late)).status_code == 200
    assert not any(models)


def test_a_search_for_a_better_plan(cast, late, models, monkeypatch):
    monkeypatch.setattr(searches, "answer", lambda case, **_: plans.answer(case))  # not sat through
    assert cast.client("owner").press("/plan/search/", {"seconds": 5}).status_code == 303
    assert models and not any(models)
