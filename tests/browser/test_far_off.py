"""A torque far off its figure, written down without signal: asked about on the phone, or when it comes back."""

import pytest

from builds.joints.engine.joints import OFF_SAID
from builds.joints.models import Joint
from tests.browser.conftest import unfold
from tests.browser.day import made_entry

pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]


def test_a_question_and_not_a_wall(crew, sign_in, live_server):
    entry = made_entry(crew[0], "Moth")
    told = {"systems": ["suspension"], "figure_mnm": 110_000, "figure_from": "manual", "wrench": "40-200 click"}
    arm = Joint.objects.create(vehicle=entry.vehicle, name="Arm bolt", **told)
    page = sign_in("Tove")
    page.context.set_default_timeout(60_000)
    page.goto(f"{live_server.url}/paddock/{entry.event_id}/")
    page.get_by_text("This page opens without signal too.").wait_for()
    page.context.set_offline(True)
    unfold(page)
    row = page.locator(f"#joint-{arm.pk}")
    row.get_by_label("Torqued to").fill("60")
    row.get_by_label("Wrench").fill("The beam")
    row.get_by_role("button", name="Torqued").click()
    row.get_by_text(OFF_SAID).wait_for()
    assert page.evaluate("unsent.all()") == []
    row.get_by_label("Torqued to").fill("44 lb ft")  # of another unit the page cannot tell
    row.get_by_role("button", name="Torqued").click()
    row.get_by_text("marked “44 lb ft”, saved on this phone").wait_for()

    page.context.set_offline(False)
    back = page.locator("#paddock-told li")
    back.filter(has_text=OFF_SAID).wait_for()
    assert OFF_SAID in row.locator("[data-told]").inner_text()
    back.get_by_label("Why").fill("Thread pulled")
    page.evaluate("unsent.draw()")  # what is typed stays when the page is drawn again
    back.get_by_role("button", name="Send it with that").click()
    back.filter(has_text="“Thread pulled” says that something is wrong").wait_for()
    back.get_by_label("Why").fill("Oiled thread")
    back.get_by_role("button", name="Send it with that").click()
    page.get_by_text("All is sent.").wait_for()
    assert [(mark.typed, mark.wrench, mark.note) for mark in arm.marks.all()] == [
        ("44 lb ft", "The beam", "Oiled thread")
    ]
