"""The event's day in a real browser whose network is cut: twenty taps, each once, one clash."""

import time
import uuid
from contextlib import suppress
from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from django.core.exceptions import PermissionDenied
from django.db import OperationalError

from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.paddock import views
from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.models.check import CheckItem, CheckLog
from garage import clock
from garage.http import see
from garage.models import Membership
from tests.factories import EntryFactory, EventFactory, MembershipFactory, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.parametrize("size", ["phone"], indirect=True)]


@pytest.fixture
def entry(db):
    owner: Membership = MembershipFactory(role="owner", person__name="Ines")
    MembershipFactory(garage=owner.garage, role="helper", person__name="Tove")
    event = EventFactory(garage=owner.garage, name="Kiln Lane", gates_at=clock.now() + timedelta(days=1))
    entry = EntryFactory(event=event, vehicle=VehicleFactory(garage=owner.garage, name="Moth"))
    check_lists.make(entry, by=owner, at=clock.now())
    return entry


def opened(page, url):
    page.goto(url)
    page.get_by_text("This page opens without signal too.").wait_for()


def test_a_page_that_is_slow_to_come_is_waited_for_and_kept_all_the_same(entry, sign_in, live_server, monkeypatch):
    """Where nothing is kept yet there is nothing to show instead."""
    page = sign_in("Tove")
    drawn = views.paddock_view

    def slowly(*told):
        time.sleep(3.5)  # longer than a kept page waits for a new one
        return drawn(*told)

    monkeypatch.setattr(views, "paddock_view", slowly)
    opened(page, f"{live_server.url}/paddock/{entry.event_id}/")


def tick(page, item):
    """What it lies folded in is opened first, from the outside in."""
    row = page.locator(f"#check-{item.pk}")
    while not row.is_visible():
        page.locator(f"details:not([open]):has(#check-{item.pk}) > summary").first.click()
    row.get_by_role("button", name="Tick").click()
    row.get_by_text("ticked, saved on this phone").wait_for()


def forget_who_is_there(page):
    """Off the network first, so that nothing the page asked for comes back with a new cookie."""
    page.wait_for_load_state("networkidle")
    page.context.set_offline(True)
    page.goto("about:blank")
    page.context.clear_cookies()
    page.context.set_offline(False)


def test_twenty_ticks_without_signal_arrive_once_and_one_clash_is_shown(entry, sign_in, live_server):
    page = sign_in("Tove")
    url = f"{live_server.url}/paddock/{entry.event_id}/"
    opened(page, url)
    twenty = list(CheckItem.objects.all()[:20])

    page.context.set_offline(True)
    for item in twenty:
        tick(page, item)
    page.get_by_text("20 saved on this phone and not sent yet").wait_for()
    assert page.get_by_text(f"Scrutineering: 20 of {CheckItem.objects.count()}").count() == 2  # car and list count on
    page.close()

    ines = Membership.objects.get(person__name="Ines")
    checks.take(twenty[0], "fail", by=ines, at=clock.now(), key=uuid.uuid4(), note="Wheel nut loose")

    page = entry_page = page.context.new_page()
    entry_page.goto(url)
    page.get_by_text("20 saved on this phone and not sent yet").wait_for()
    assert CheckLog.objects.filter(step="tick").count() == 0

    page.context.set_offline(False)
    page.get_by_role("button", name="Send now").click()
    page.get_by_text("Sent, and 1 came back: see below.").wait_for()
    told = page.locator("#paddock-told li")
    assert told.count() == 1
    assert "Ines failed it" in told.inner_text()
    ticked = CheckLog.objects.filter(step="tick")
    assert ticked.count() == 19
    assert set(ticked.values_list("item", flat=True)) == {item.pk for item in twenty[1:]}
    twenty[0].refresh_from_db()
    assert twenty[0].state == "failed"

    told.get_by_role("button", name="Leave it as it is").click()
    page.locator("#paddock-clashes").wait_for(state="hidden")
    page.reload()
    page.get_by_text("All is sent.").wait_for()
    assert CheckLog.objects.filter(step="tick").count() == 19


def test_a_phone_that_was_signed_out_cannot_read_the_page_after_it_met_the_garage(entry, sign_in, live_server):
    page = sign_in("Tove")
    url = f"{live_server.url}/paddock/{entry.event_id}/"
    opened(page, url)
    page.context.set_offline(True)
    page.goto(url)
    page.get_by_role("heading", name="The day at Kiln Lane").wait_for()

    Membership.objects.filter(person__name="Tove").update(left_at=clock.now())
    page.context.set_offline(False)
    page.goto(url)
    page.get_by_text("You are not in this garage any more").wait_for()
    page.context.set_offline(True)
    page.goto(url)
    page.get_by_role("heading", name="No signal").wait_for()
    assert "Moth" not in page.content()


def test_what_waits_survives_signing_out_and_is_sent_by_whoever_wrote_it(entry, sign_in, live_server):
    page = sign_in("Tove")
    url = f"{live_server.url}/paddock/{entry.event_id}/"
    opened(page, url)
    item = CheckItem.objects.first()
    page.context.set_offline(True)
    tick(page, item)
    forget_who_is_there(page)
    page = sign_in("Ines")
    page.goto(url)
    page.get_by_text("1 more by Tove: sign in as Tove to send it.").wait_for()
    assert not CheckLog.objects.exists()
    forget_who_is_there(page)
    page = sign_in("Tove")
    page.goto(url)
    page.get_by_text("All is sent.").wait_for()
    item.refresh_from_db()
    assert (item.state, item.by.name) == ("ticked", "Tove")


def test_a_gateways_answer_neither_hides_nor_forgets_the_kept_page(entry, sign_in, live_server, monkeypatch):
    """A proxy that answers while the garage is off: with an error, with a page of its own, or by sending on to one."""
    page = sign_in("Tove")
    url = f"{live_server.url}/paddock/{entry.event_id}/"
    opened(page, url)
    page.wait_for_load_state("networkidle")
    for place, gateway in enumerate(("fails", "lies", "sends on")):
        with monkeypatch.context() as unmarked:
            with monkeypatch.context() as broken:
                if gateway == "fails":
                    broken.setattr("builds.paddock.views.paddock_view", lambda *_: 1 / 0)
                    broken.setattr("builds.paddock.views.items_of", lambda *_: 1 / 0)
                else:
                    unmarked.setattr("garage.middleware.MARK", "Gateway-Says")
                    broken.setattr("builds.paddock.views.visible", refuse_all)
                if gateway == "sends on":
                    broken.setattr("builds.paddock.views.visible", lambda *_, **__: entry.event)
                    for name in ("page", "JsonResponse"):
                        broken.setattr(f"builds.paddock.views.{name}", lambda *_, **__: see("/paddock/worker.js"))
                page.goto(url)
                page.get_by_role("heading", name="The day at Kiln Lane").wait_for()
                tick(page, CheckItem.objects.all()[place])
                page.get_by_text("1 saved on this phone and not sent yet").wait_for()
            page.wait_for_timeout(2000)  # what was asked of the gateway is answered by it
        # It may have tried again by itself meanwhile.
        send, sent = page.get_by_role("button", name="Send now"), page.get_by_text("All is sent.")
        send.or_(sent).first.wait_for()
        if not sent.is_visible():
            send.click()
        sent.wait_for()
    assert CheckLog.objects.count() == 3
    page.context.set_offline(True)
    page.goto(url)
    page.get_by_role("heading", name="The day at Kiln Lane").wait_for()


def shown(page, item):
    """Its row, with what it lies folded in opened."""
    page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    return page.locator(f"#{item}")


def test_each_row_says_what_waits_and_what_came_back_and_offers_what_would_be_taken(entry, sign_in, live_server):
    nuts = Joint.objects.create(vehicle=entry.vehicle, name="Wheel nuts", systems=["wheels"])
    pads, hoses = CheckItem.objects.all()[:2]
    page = sign_in("Tove")
    url = f"{live_server.url}/paddock/{entry.event_id}/"
    page.goto(url)
    page.get_by_text("This page opens without signal too.").wait_for()
    page.context.set_offline(True)

    row = shown(page, f"check-{hoses.pk}")
    row.get_by_label("Note").fill("Chafed at the arm")
    row.get_by_role("button", name="It fails").click()
    row.get_by_text("failed “Chafed at the arm”, saved on this phone").wait_for()
    row = shown(page, f"joint-{nuts.pk}")
    row.get_by_label("Torqued to").fill("98")
    row.get_by_role("button", name="Torqued").click()
    row.get_by_text("marked “98”, saved on this phone").wait_for()
    row = shown(page, f"check-{pads.pk}")
    row.get_by_role("button", name="Tick").click()
    row.get_by_text("ticked, saved on this phone").wait_for()
    page.get_by_text(f"Scrutineering: 1 of {CheckItem.objects.count()}").first.wait_for()
    page.evaluate(YESTERDAY)
    row.get_by_text(f"saved on this phone {yesterday(entry)}").wait_for()

    ines = Membership.objects.get(person__name="Ines")
    checks.take(pads, "fail", by=ines, at=clock.now(), key=uuid.uuid4(), note="Worn out")
    joints.mark(nuts, by=ines, at=clock.now(), key=uuid.uuid4(), torque_mnm=110_000, typed="110 N·m")
    posts = []
    page.on("request", lambda sent: posts.append(sent) if sent.method == "POST" else None)
    page.context.set_offline(False)
    page.get_by_text("Sent, and 2 came back: see below.").wait_for()
    assert posts and all(len(sent.post_data) + headers_of(sent) <= 2000 for sent in posts)
    page.locator("#unsent").get_by_text("2 came back").wait_for()
    shown(page, f"check-{pads.pk}").get_by_text("Ines failed it").wait_for()
    shown(page, f"joint-{nuts.pk}").get_by_text("Ines marked it, 110 N·m").wait_for()

    told = page.locator("#paddock-told li")
    of_pads, of_nuts = told.filter(has_text="Ines failed it"), told.filter(has_text="110 N·m")
    assert of_pads.get_by_role("button").all_inner_texts() == ["Leave it as it is"]
    of_nuts.get_by_role("button", name="Mine is right: set it").click()
    page.get_by_text("Sent, and 1 came back: see below.").wait_for()
    assert [mark.torque_mnm for mark in nuts.marks.all()] == [110_000, 98_000]


# What was tapped a day ago, on a phone that had no signal since.
YESTERDAY = """async () => {
  for (const row of await unsent.all()) await unsent.put({ ...row, at: row.at - 86400000 });
  await unsent.draw();
}"""


def yesterday(entry):
    zone = ZoneInfo(entry.event.garage.time_zone)
    return (clock.now() - timedelta(days=1)).astimezone(zone).strftime("%a")


def headers_of(sent):
    return sum(len(name) + len(value) + 4 for name, value in sent.all_headers().items())


def arrives(page, rows):
    """Waits, for 15 s at most, until what the phone kept is written down; while it is, it cannot be read."""
    for _ in range(150):
        with suppress(OperationalError):
            if rows.exists():
                return
        page.wait_for_timeout(100)


def refuse_all(*_, **__):
    raise PermissionDenied("This is the gateway.")


def test_signing_out_keeps_what_waits_and_any_page_counts_and_sends_it(entry, sign_in, live_server):
    page = sign_in("Tove")
    url = f"{live_server.url}/paddock/{entry.event_id}/"
    opened(page, url)
    page.wait_for_load_state("networkidle")
    page.context.set_offline(True)
    tick(page, CheckItem.objects.first())
    page.goto("about:blank")
    page.context.set_offline(False)
    page.context.route("**/paddock/**/now/", lambda route: route.abort())  # the state alone: no signal for writes
    page.goto(f"{live_server.url}/people/")
    page.get_by_text("1 saved on this phone and not sent yet").wait_for()
    page.get_by_text("More", exact=True).click()
    page.get_by_role("button", name="Sign out").click()
    page.get_by_text("1 more by Tove: sign in as Tove to send it.").wait_for()
    page = sign_in("Ines")
    page.get_by_text("1 more by Tove: sign in as Tove to send it.").wait_for()
    assert not CheckLog.objects.exists()
    page.context.unroute("**/paddock/**/now/")
    page.goto("about:blank")
    page.context.clear_cookies()
    page = sign_in("Tove")
    arrives(page, CheckLog.objects)
    page.locator("#unsent p").wait_for(state="detached")
    assert CheckLog.objects.get().by.name == "Tove"
