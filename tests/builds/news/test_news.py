"""News by mail: off until asked for, told once, stopped by its own link alone."""

import re
from datetime import timedelta
from io import StringIO
from smtplib import SMTPException

import pytest
from django.core import mail, signing
from django.core.management import CommandError, call_command

from builds.news.models import NewsWish
from builds.news.tasks import send_due, send_news
from builds.work.models.need import Need
from garage.models import DayHours
from tests.builds.plan.plan_kit import evenings, job, write
from tests.conftest import Browserless
from tests.factories import NOW, HoldPointFactory, NeedFactory, VehicleFactory
from tests.pages import words

pytestmark = pytest.mark.usefixtures("clock")
ALL = {"evenings": "on", "points": "on", "parts": "on", "cars": "on"}


@pytest.fixture(autouse=True)
def mailed(settings):
    settings.SENDS_MAIL, settings.DEFAULT_FROM_EMAIL = True, "garage@example.org"


@pytest.fixture
def shop(cast):
    """The helper is in tomorrow, has a job then, and a part is to come for it."""
    evenings(cast.helper, days=(2, 3))
    fan = job(VehicleFactory(garage=cast.garage, name="Heron"), cast, title="Fit the fan")
    NeedFactory(job=fan, what="a grille")
    return fan


def ask(client, **kinds):
    return client.press("/news/", kinds)


def looked(clock, **by):
    clock.forward(**by)
    return send_due(at=clock.at)


def test_nobody_gets_any_who_did_not_ask(owner, cast, shop, clock):
    page = owner.get("/news/").content.decode()
    assert "You get none until you tick some" in words(page) and "checked" not in page
    assert looked(clock) == 0 and not NewsWish.objects.exists()


def test_what_changed_is_told_in_one_mail_and_once(helper, cast, shop, clock):
    assert ask(helper, **ALL).status_code == 303
    assert looked(clock) == 0  # how things stand is looked at first
    DayHours.objects.create(member=cast.helper, day=(NOW + timedelta(days=1)).date(), kind="off")
    Need.objects.update(got_at=NOW)
    cast.garage.refresh_from_db()
    other = job(shop.vehicle, cast, title="Weld the arm", state="held", finished_at=NOW)
    HoldPointFactory(job=other, what="Root pass", signed_at=None, signed_by=None)
    cast.helper.may_sign = True
    cast.helper.save()
    write(cast.garage)
    assert looked(clock, minutes=5) == 1
    (sent,) = mail.outbox
    assert sent.to == [cast.helper.person.email] and sent.from_email == "garage@example.org"
    assert "Here: a grille, for “Fit the fan” on Heron." in sent.body
    assert "Wed 3 Mar: nothing is planned for you any more." in sent.body
    assert "Thu 4 Mar, from 18:00: “Fit the fan”, Heron." in sent.body
    assert "Root pass" in sent.body and "Tove," in sent.body
    assert looked(clock, hours=2) == 0 and len(mail.outbox) == 1


def test_parts_of_a_car_that_he_does_not_work_on_are_no_news_to_him(helper, cast, shop, clock):
    ask(helper, parts="on")
    cast.helper.every_car = False
    cast.helper.save()
    looked(clock)
    Need.objects.update(got_at=NOW)
    assert looked(clock, minutes=5) == 0 and not mail.outbox
    NeedFactory(job=shop, what="a fan")
    cast.helper.cars.add(shop.vehicle)
    looked(clock, minutes=5)
    Need.objects.update(got_at=NOW)
    assert looked(clock, minutes=5) == 1 and "Here: a fan" in mail.outbox[0].body


def test_no_more_than_one_an_hour(helper, cast, shop, clock):
    ask(helper, parts="on")
    looked(clock)
    for number, minutes, sent in ((1, 1, 1), (2, 59, 0), (3, 1, 1)):
        need = NeedFactory(job=shop, what=f"part {number}", got_at=None)
        NewsWish.objects.update(told={**NewsWish.objects.get().told, "parts": {str(need.pk): f"part {number}"}})
        Need.objects.filter(pk=need.pk).update(got_at=NOW)
        assert looked(clock, minutes=minutes) == sent, number


def test_only_whoever_can_be_written_to_asks(helper, cast, now):
    cast.helper.person.email = None
    cast.helper.person.save()
    refused = ask(helper, parts="on")
    assert refused.status_code == 422 and "Write down your e-mail first" in refused.content.decode()
    assert ask(helper).status_code == 303 and not NewsWish.objects.exists()


@pytest.mark.parametrize("gone", ["left", "off"])
def test_who_left_or_where_mail_is_off_gets_none(helper, cast, shop, clock, settings, gone):
    ask(helper, parts="on")
    looked(clock)
    Need.objects.update(got_at=NOW)
    if gone == "left":
        cast.helper.left_at = NOW
        cast.helper.save()
    settings.SENDS_MAIL = gone != "off"
    assert looked(clock, hours=1) == 0 and mail.outbox == []
    if gone == "off":
        with pytest.raises(CommandError, match="set MAIL_HOST and MAIL_FROM"):
            call_command("news")


def test_what_could_not_be_sent_is_sent_at_the_next_look(helper, cast, shop, clock, monkeypatch):
    ask(helper, parts="on")
    looked(clock)
    Need.objects.update(got_at=NOW)

    def broken(self):
        raise SMTPException("down")

    with monkeypatch.context() as patch:
        patch.setattr("django.core.mail.EmailMessage.send", broken)
        assert looked(clock, minutes=1) == 0
    out = StringIO()
    call_command("news", stdout=out)
    assert out.getvalue() == "1 mail sent.\n"
    send_news.call()
    assert len(mail.outbox) == 1


def test_the_link_in_a_mail_stops_it_and_opens_nothing_else(helper, cast, shop, clock):
    ask(helper, parts="on")
    looked(clock)
    Need.objects.update(got_at=NOW)
    looked(clock, minutes=1)
    (sent,) = mail.outbox
    address = re.search(r"/news/stop/[^/\s]+/", sent.body)[0]
    assert address in sent.extra_headers["List-Unsubscribe"]
    guest, token = Browserless(), address.split("/")[3]
    assert guest.get(address).status_code == 200 and NewsWish.objects.exists()
    for other in (f"/shared/{token}/", f"/visit/{token}/", f"/enter/{token}/", f"/feed/{token}/"):
        assert guest.get(other).status_code == 404
    assert guest.get(f"/news/stop/{signing.dumps(cast.helper.pk, salt='another')}/").status_code == 404
    assert "You get no more mail" in words(guest.post(address).content.decode())
    assert not NewsWish.objects.exists() and guest.get(address).status_code == 404


def test_a_viewer_is_told_of_cars_and_parts_alone(viewer, cast, shop, clock):
    evenings(cast.viewer)
    ask(viewer, **ALL)
    looked(clock)
    told = NewsWish.objects.get().told
    assert told["evenings"] == {} and told["points"] == {} and told["parts"] and told["cars"]
