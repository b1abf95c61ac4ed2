"""What if: tried in a copy, compared side by side, kept or thrown away."""

import re
import uuid

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.cure.models.shop import ShopDay
from builds.plan.facts.stored import shown
from builds.plan.models import Plan
from builds.remedies.actions import trials
from builds.remedies.deeds.heat import HeatDeed
from builds.remedies.deeds.weigh import WeighDeed
from garage.models import DayHours, Entry
from tests.builds.plan.plan_kit import enter, evenings, job, planned, text
from tests.builds.remedies.remedy_kit import late_entry, lonely_car
from tests.builds.remedies.trial_kit import (
    ADD,
    DAY,
    TODAY,
    TOMORROW,
    page,
    session,
    snapshot,
    tried,
)
from tests.factories import (
    NOW,
    EventFactory,
    LinkFactory,
    MembershipFactory,
    NeedFactory,
    VehicleFactory,
)
from tests.pages import words

pytestmark = [pytest.mark.once, pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def late(cast):
    return late_entry(cast, lonely_car(cast))


class TestTrying:
    def test_the_form_leads_to_the_two_plans_side_by_side(self, owner, cast, late):
        before = snapshot(cast)
        data = {"person": cast.owner.pk, "kind": "session", "day": TOMORROW, "hours": "18:00-22:00"}
        said = words(owner.press(ADD, data, follow=True).content.decode())
        assert "Ines comes Wed 3 Mar 18:00–22:00 as well" in said
        assert "By the plan ready Tue 9 Mar 20:00, 5 d 3 h too late." in said
        assert "By the plan ready Wed 20:00, in time." in said
        assert "No longer late “Fit the fan”" in said
        assert "it changed nothing in the garage" in said
        assert snapshot(cast) == before

    def test_what_moves_and_why_and_which_work_is_late(self, owner, cast, late):
        said = page(owner, tried(cast, session(cast.owner, 1020, 1080, TODAY)))
        late_work = said[said.index("Late work") : said.index("What moves")]
        assert "Late either way “Fit the fan”" in late_work
        moved = said[said.index("What moves") :]
        assert "Fit the fan Tue 17:00 instead of Tue 18:00 “Fit the fan” waits for nothing." in moved

    def test_a_heater_that_is_tried_carries_its_caution(self, owner, cast, late):
        row = tried(cast, HeatDeed(18 * 60, 24 * 60, 20_000, TODAY))
        assert "never runs where solvent is in the air" in page(owner, row)
        assert "solvent" not in page(owner, tried(cast, session(cast.owner)))

    def test_more_is_added_to_what_was_tried(self, owner, cast, late):
        row = tried(cast, session(cast.owner))
        body = text(owner, f"{ADD}{row.pk}/")
        (link,) = re.findall(r'href="(/plan/what-if/\?do=[^"]+)"', body)
        form = text(owner, link.replace("&amp;", "&"))
        assert "Ines comes Wed 3 Mar 18:00–22:00 as well" in form
        data = {"do": session(cast.owner).code, "car": f"entry.{late.pk}", "weight": 5}
        said = words(owner.press(ADD, data, follow=True).content.decode())
        assert "Ines comes Wed 3 Mar" in said
        assert "Heron at Saltmarsh Hill Climb matters 5 of 9, not 1" in said

    def test_a_day_off_makes_it_worse(self, owner, cast, late):
        evenings(cast.owner, days=[2])
        planned(cast.garage)
        data = {"person": cast.owner.pk, "kind": "off", "day": TODAY}
        said = words(owner.press(ADD, data, follow=True).content.decode())
        assert "Ines is not in on Tue 2 Mar" in said
        assert said.index("By the plan ready Wed 20:00, in time.") < said.index(" too late.")
        assert "Late because of it “Fit the fan”" in said

    def test_a_part_another_day(self, owner, cast, late):
        need = NeedFactory(job=late.vehicle.jobs.get(), what="fan", expected_on=TODAY)
        data = {"need": need.pk, "expected_on": TODAY + 30 * DAY}
        said = words(owner.press(ADD, data, follow=True).content.decode())
        assert "fan for “Fit the fan” comes Thu 1 Apr, not Tue 2 Mar" in said
        need.refresh_from_db()
        assert need.expected_on == TODAY

    def test_a_warm_shop(self, owner, cast, late):
        car = VehicleFactory(garage=cast.garage, name="Moth")
        evenings(cast.owner, days=[2])
        prime, refit = job(car, cast, "Prime"), job(car, cast, "Refit")
        LinkFactory(before=prime, after=refit, cure="epoxy-primer", cure_stage="handle")
        planned(cast.garage)
        said = words(owner.press(ADD, {"warm_mc": "30"}, follow=True).content.decode())
        assert "The shop stays at 30 °C from Tue 2 Mar on" in said
        assert not ShopDay.objects.exists()

    def test_entries_in_and_out(self, owner, cast, late):
        tug = VehicleFactory(garage=cast.garage, name="Tug")
        job(tug, cast, "Trailer lights")
        data = {"car": f"enter.{late.event_id}.{tug.pk}", "weight": 2}
        said = words(owner.press(ADD, data, follow=True).content.decode())
        assert "Tug goes to Saltmarsh Hill Climb and matters 2 of 9" in said
        assert re.search(r"Tug , green tape Saltmarsh Hill Climb Stays at home\. (By the plan|Misses)", said)
        data = {"car": f"entry.{late.pk}", "weight": 0}
        said = words(owner.press(ADD, data, follow=True).content.decode())
        assert "Heron does not go to Saltmarsh Hill Climb" in said
        assert Entry.objects.get() == late

    def test_old_trials_make_room_and_the_plan_on_the_wall_stays(self, cast, late):
        wall = shown(cast.garage).row
        for _ in range(6):
            tried(cast, session(cast.owner))
        assert Plan.objects.trials().count() == trials.MOST_ROWS
        assert shown(cast.garage).row == wall

    def test_what_changed_since_is_said(self, owner, cast, late):
        row = tried(cast, session(cast.owner))
        job(late.vehicle, cast, "Found rust")
        assert "changed since this was tried. Try it again." in page(owner, row)

    def test_two_who_look_first_at_once_see_the_same_plans(self, cast, late, monkeypatch):
        row = tried(cast, session(cast.owner))
        theirs, best = Plan.objects.get(pk=row.pk), trials.best

        def overtaken(*case, **more):
            monkeypatch.setattr(trials, "best", best)
            trials.compare(theirs, by=cast.owner, at=NOW)
            return best(*case, **more)

        monkeypatch.setattr(trials, "best", overtaken)
        shown_to_me = trials.compare(row, by=cast.owner, at=NOW).trial
        for mine in (shown_to_me.before.row, shown_to_me.after.row):
            kept = Plan.objects.get(pk=mine.pk)
            assert (mine.answer, mine.seconds, mine.problem) == (kept.answer, kept.seconds, kept.problem)
        assert row.seconds == theirs.seconds


class TestKeeping:
    def test_kept_it_is_in_the_garage_and_on_the_wall(self, owner, cast, late):
        row = tried(cast, session(cast.owner))
        answer = owner.press(f"{ADD}{row.pk}/keep/", follow=True)
        said = words(answer.content.decode())
        assert "It is done, and planned." in said
        assert "By the plan ready Wed 20:00, in time" in said
        assert DayHours.objects.get().day == TOMORROW
        assert not Plan.objects.trials().exists()

    def test_a_double_tap_keeps_it_once(self, owner, cast, late):
        row = tried(cast, session(cast.owner))
        key = {"key": str(uuid.uuid4())}
        answers = [owner.post(f"{ADD}{row.pk}/keep/", key).status_code for _ in range(2)]
        assert answers == [303, 303]
        assert DayHours.objects.count() == 1

    def test_thrown_away_nothing_is_left(self, owner, cast, late):
        before = snapshot(cast)
        row = tried(cast, session(cast.owner))
        said = owner.press(f"{ADD}{row.pk}/drop/", follow=True).content.decode()
        assert "Deleted; nothing in the garage has changed." in said
        assert snapshot(cast) == before
        assert not Plan.objects.trials().exists()

    def test_what_cannot_be_kept_any_more_is_refused(self, owner, cast, late):
        row = tried(cast, session(cast.owner))
        DayHours.objects.create(member=cast.owner, day=TOMORROW, kind="extra", from_minute=1200, until_minute=1260)
        said = owner.press(f"{ADD}{row.pk}/keep/", follow=True).content.decode()
        assert "overlap." in said
        assert DayHours.objects.count() == 1

    def test_somebody_who_left_is_not_there_any_more(self, owner, cast, late):
        other = MembershipFactory(garage=cast.garage, person__name="Una")
        row = tried(cast, session(other))
        other.left_at = NOW
        other.save()
        assert "not there any more: try anew" in page(owner, row)
        said = owner.press(f"{ADD}{row.pk}/keep/", follow=True).content.decode()
        assert "not there any more: try anew" in said


class TestWhoMay:
    def test_a_helper_tries_and_reads_why_he_cannot_keep(self, cast, helper, late):
        data = {"car": f"entry.{late.pk}", "weight": 9}
        answer = helper.press(ADD, data, follow=True)
        body = answer.content.decode()
        assert "Only the owner of Quayside Lock-up can change this." in body
        assert "Keep it" not in body
        row = Plan.objects.trials().first()
        assert helper.press(f"{ADD}{row.pk}/keep/").status_code == 403
        late.refresh_from_db()
        assert late.weight == 1

    def test_a_viewer_looks_and_tries_nothing(self, cast, viewer, late):
        row = tried(cast, session(cast.owner))
        body = text(viewer, f"{ADD}{row.pk}/")
        assert "Delete it" not in body
        assert viewer.get(ADD).status_code == 403
        assert viewer.press(f"{ADD}{row.pk}/drop/").status_code == 403

    def test_a_stranger_and_nobody_find_nothing(self, cast, stranger, late):
        row = tried(cast, session(cast.owner))
        assert stranger.get(f"{ADD}{row.pk}/").status_code == 404
        assert cast.client("nobody").get(f"{ADD}{row.pk}/").status_code == 302

    def test_a_plan_that_is_no_trial_has_no_page(self, owner, cast, late):
        wall = shown(cast.garage).row
        assert owner.get(f"{ADD}{wall.pk}/").status_code == 404
        row = tried(cast, session(cast.owner))
        assert owner.get(f"{ADD}{row.made_from['trial']['base']}/").status_code == 404
        assert owner.press(f"{ADD}{wall.pk}/drop/").status_code == 404


def test_markup_in_names_is_shown(owner, cast, late):
    late.vehicle.name = "<b>Heron</b>"
    late.vehicle.save()
    row = tried(cast, WeighDeed(late.pk, 4))
    body = text(owner, f"{ADD}{row.pk}/")
    assert "<b>Heron" not in body
    assert "&lt;b&gt;Heron" in body


def test_the_same_queries_for_one_car_and_for_six(cast, owner, late):
    def pages():
        row = tried(cast, session(cast.owner))
        owner.get(ADD)
        with CaptureQueriesContext(connection) as found:
            assert owner.get(f"{ADD}{row.pk}/").status_code == 200
            assert owner.get(ADD).status_code == 200
        return len(found)

    def fill(count):
        for _ in range(count):
            other = VehicleFactory(garage=cast.garage)
            NeedFactory(job=job(other, cast))
            enter(other)
            EventFactory(garage=cast.garage)

    fill(1)
    one = pages()
    fill(5)
    assert pages() == one
