"""A first session run makes readings void and opens five things; after the event, a strip-down."""

from datetime import timedelta

import pytest

from builds.readings.engine.kinds_of_work import voided_by
from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CheckItem, CheckList
from builds.scrutineering.pages.check_list import entry_checks
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.entry_run import EntryRun
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.scrutineering.check_kit import entered, tap
from tests.factories import NOW, EntryFactory, EventFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def entry(cast):
    """Its gates have been open for an hour."""
    return entered(cast, event__gates_at=NOW - timedelta(hours=1))


def run(client, entry):
    return client.press(f"/entries/{entry.pk}/first-session/")


def test_the_first_session_is_work_of_its_kind_and_opens_a_short_list(helper, cast, entry, now):
    assert run(helper, entry)["Location"] == f"/entries/{entry.pk}/checks/"
    job = Job.objects.get()
    assert (job.kinds, job.state, job.finished_at) == (["first_run"], "done", NOW)
    assert voided_by(job.kinds) >= {"wheel_torque", "jam_nuts", "tyre_pressures"}
    items = CheckItem.objects.filter(checklist__entry=entry)
    assert items.count() == 5
    page = helper.get(f"/entries/{entry.pk}/checks/").content.decode()
    assert "After the first session" in page and "0 of 5" in page
    assert [each.checklist.kind for each in entry_checks(entry, NOW).lists] == ["first_run"]


def test_it_is_run_once_and_not_before_the_gates_open(helper, cast, entry, now):
    run(helper, entry)
    run(helper, entry)
    assert EntryRun.objects.count() == Job.objects.count() == 1
    ahead = entered(cast, name="Heron")
    answer = helper.press(f"/entries/{ahead.pk}/first-session/", follow=True)
    assert f"The gates of {ahead.event} are not open yet." in answer.content.decode()
    assert not EntryRun.objects.filter(entry=ahead).exists()


def test_a_mistake_is_taken_back_until_something_was_looked_at(helper, cast, entry, now):
    run(helper, entry)
    helper.press(f"/entries/{entry.pk}/not-run/")
    assert not EntryRun.objects.exists() and not CheckList.objects.exists()
    assert Job.objects.get().state == "dropped"
    run(helper, entry)
    tap(CheckItem.objects.first(), "tick", cast.helper)
    answer = helper.press(f"/entries/{entry.pk}/not-run/", follow=True)
    assert "Something was looked at after it" in answer.content.decode()
    assert EntryRun.objects.exists()


def over(cast):
    return EventFactory(garage=cast.garage, gates_at=NOW - timedelta(days=1))


def test_the_strip_down_goes_on_the_cars_that_ran(helper, cast, now):
    event = over(cast)
    ran, stayed = (
        EntryFactory(event=event, vehicle__garage=cast.garage, vehicle__name=name) for name in ("Moth", "Heron")
    )
    EntryRun.objects.create(entry=ran, at=NOW, by=cast.owner)
    path = f"/events/{event.pk}/strip-down/"
    page = helper.get(path)
    assert page.context["form"]["entries"].initial == [ran.pk]
    assert f'href="{path}"' in helper.get(f"/events/{event.pk}/").content.decode()
    assert helper.press(path, {"entries": [ran.pk]})["Location"] == f"/events/{event.pk}/"
    jobs = Job.objects.filter(recipe="post-event-strip-down")
    assert {job.vehicle for job in jobs} == {ran.vehicle}
    assert {job.batch for job in jobs} == {EntryRun.objects.get(entry=ran).stripped}
    offered = helper.get(path).context["form"].fields["entries"].queryset
    assert list(offered) == [stayed]
    answer = helper.press(path, {"entries": [ran.pk]})
    assert answer.status_code == 422


def test_no_strip_down_before_the_end_nor_of_no_car_nor_of_anothers(helper, cast, entry, now):
    path = f"/events/{entry.event_id}/strip-down/"
    answer = helper.press(path, {"entries": [entry.pk]})
    assert answer.status_code == 422 and "is not over yet" in answer.content.decode()
    event = over(cast)
    path = f"/events/{event.pk}/strip-down/"
    EntryFactory(event=event, vehicle__garage=cast.garage)
    answer = helper.press(path)
    assert answer.status_code == 422
    assert "Tick at least one car that ran." in answer.content.decode()
    for wrong in (EntryFactory().pk, entry.pk, "NaN", "1,5"):
        assert helper.press(path, {"entries": [wrong]}).status_code == 422
    assert not Job.objects.exists()


def test_who_may(cast, entry, viewer, stranger, now):
    EntryRun.objects.create(entry=entry, at=NOW, by=cast.owner)
    for path in (
        f"/entries/{entry.pk}/first-session/",
        f"/entries/{entry.pk}/not-run/",
        f"/events/{entry.event_id}/strip-down/",
    ):
        assert viewer.press(path).status_code == 403
        assert stranger.press(path).status_code == 404


def test_the_verdict_asks_for_the_five_until_they_are_ticked(helper, cast, entry, now):
    checklist = check_lists.make(entry, by=cast.owner, at=NOW)
    for item in checklist.items.all():
        tap(item, "tick", cast.owner)
    assert not [each for each in verdict_of(entry.vehicle, NOW).reasons if each.kind == "check"]
    run(helper, entry)
    said = [each for each in verdict_of(entry.vehicle, NOW).reasons if each.kind == "check"]
    assert len(said) == 5
    assert said[0].sentence.startswith("Not ticked: Wheel nuts torqued again")
    for item in CheckItem.objects.filter(state="open"):
        tap(item, "tick", cast.helper)
    assert not [each for each in verdict_of(entry.vehicle, NOW).reasons if each.kind == "check"]


def test_a_list_of_another_garages_car_is_refused(cast, entry):
    with pytest.raises(Refused, match="another garage's"):
        check_lists.make(entry, by=cast.stranger, at=NOW)


def test_once_it_is_over_the_events_page_asks_whether_a_car_ran(helper, viewer, stranger, cast, now):
    entry = entered(cast, event__gates_at=NOW - timedelta(hours=9), event__ends_at=NOW - timedelta(hours=1))
    page, answer = f"/events/{entry.event_id}/", f"/entries/{entry.pk}/did-not-run/"
    assert "nobody has said whether it ran" in helper.get(page).content.decode()
    assert (viewer.press(answer).status_code, stranger.press(answer).status_code) == (403, 404)
    helper.press(answer)
    assert not EntryRun.objects.get().ran
    shown = helper.get(page).content.decode()
    assert "did not run" in shown and "nobody has said whether" not in shown
    run(helper, entry)
    assert not EntryRun.objects.get().ran and not Job.objects.exists()
    helper.press(f"/entries/{entry.pk}/not-run/")
    assert not EntryRun.objects.exists()
