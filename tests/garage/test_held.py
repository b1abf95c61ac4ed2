"""The lock watch, which stands behind every test: it finds what is slow within a write, and nothing beside one."""

import time

import pytest

from builds.planner import search
from garage.http import TemplateResponse

ADD = "/stations/add/"
FORM = {"name": "Welding bench", "capacity": "1"}


def slow(*args, **kwargs):
    """As something slow would come into an action, by one of its names."""
    time.sleep(0)
    with pytest.raises(TypeError):
        search.plan()


def test_what_is_slow_is_found_within_a_write_and_not_before_or_after_it(owner, watch, monkeypatch):
    slow()
    assert owner.press(ADD, FORM).status_code == 303
    assert owner.press(ADD, {**FORM, "tue": "22-18"}).status_code == 422  # whose page is drawn when it is over
    assert owner.get(ADD).status_code == 200
    assert watch.told == []
    with monkeypatch.context() as patch:
        patch.setattr("garage.actions.stations._set_week", slow)
        assert owner.press(ADD, {**FORM, "name": "Lathe"}).status_code == 303
    assert watch.told == ["sleeps: sleep", "plans: plan"]
    watch.told.clear()
    with monkeypatch.context() as patch:
        patch.setattr("garage.views.stations.page", lambda *args, **more: TemplateResponse(*args[:2]).render())
        owner.press(ADD, {**FORM, "tue": "22-18"})
    assert set(watch.told) == {"draws a page: Template.render"}
    watch.told.clear()
