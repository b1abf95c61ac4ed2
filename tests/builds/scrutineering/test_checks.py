"""Scrutineering lists: made, ticked, failed, left out, taken back; void again; their pages."""

import uuid
from datetime import timedelta

import pytest
from django.db import IntegrityError, transaction

from builds.scrutineering.actions import check_lists, checks
from builds.scrutineering.engine.check_list import HAS, load_items
from builds.scrutineering.engine.ticks import AHEAD
from builds.scrutineering.models.check import CheckItem, CheckLog
from builds.scrutineering.pages.check_list import entry_checks
from builds.steps.actions import steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.engine.again import TAKEN_AGAIN
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.scrutineering.check_kit import entered, item_of, made, tap, worked
from tests.factories import NOW, EntryFactory

pytestmark = pytest.mark.django_db


def refused(item, step, by, **more):
    with pytest.raises(Refused) as found:
        tap(item, step, by, **more)
    return str(found.value)


def test_a_list_holds_every_item_until_somebody_says_what_the_car_has(cast):
    entry = entered(cast)
    checklist = check_lists.make(entry, by=cast.owner, at=NOW)
    assert checklist.items.count() == len(load_items())
    check_lists.say_has(entry.vehicle, ["harness", "open_body"], by=cast.owner)
    check_lists.make(entry, by=cast.owner, at=NOW)
    keys = set(checklist.items.values_list("key", flat=True))
    assert "belt-dates" in keys and "arm-restraints" in keys
    assert not keys & {"turbo", "cage-whole", "doors"}


def test_making_it_again_keeps_what_was_ticked_though_the_car_no_longer_asks_for_it(cast):
    checklist = made(cast)
    tap(item_of(checklist, "turbo"), "tick", cast.helper)
    check_lists.say_has(checklist.entry.vehicle, [], by=cast.owner)
    check_lists.make(checklist.entry, by=cast.owner, at=NOW)
    keys = set(checklist.items.values_list("key", flat=True))
    assert "turbo" in keys and "chain" not in keys
    assert item_of(checklist, "turbo").state == "ticked"


def test_an_organisers_own_lines_come_first_and_serve_the_next_event_of_his_name(cast):
    check_lists.keep_organiser(
        cast.garage, at=NOW, name="Kiln Lane Club", text="Brakes:\n- Wedge light works",
        with_shipped=False,
    )  # fmt: skip
    for event in ("Spring", "Autumn"):
        entry = entered(cast, event__organiser="kiln lane club", event__name=event, name=event)
        checklist = check_lists.make(entry, by=cast.owner, at=NOW)
        (item,) = checklist.items.all()
        assert (item.section, item.text) == ("Brakes", "Wedge light works")
        assert item.systems == ["brakes", "electrics"]
        assert checklist.organiser == "Kiln Lane Club"


def test_a_tick_says_who_and_when_and_counts_once(cast):
    item, key = item_of(made(cast), "pedal"), uuid.uuid4()
    first = tap(item, "tick", cast.helper, 3, key=key)
    again = tap(item, "tick", cast.helper, 9, key=key)
    assert again.again and again.row == first.row
    item.refresh_from_db()
    assert (item.state, item.by, item.at) == ("ticked", cast.helper, NOW + timedelta(minutes=3))
    assert CheckLog.objects.count() == 1


def test_a_key_is_for_one_tap_on_one_item(cast):
    checklist, key = made(cast), uuid.uuid4()
    tap(item_of(checklist, "pedal"), "tick", cast.helper, key=key)
    sentence = "This tap was used already, for something else."
    assert refused(item_of(checklist, "tank"), "tick", cast.helper, key=key) == sentence
    assert refused(item_of(checklist, "pedal"), "fail", cast.helper, key=key) == sentence


def test_a_fail_opens_a_job_for_safety_by_what_it_touches(cast):
    checklist = made(cast)
    taken = tap(item_of(checklist, "brake-leaks"), "fail", cast.helper, note="Left rear weeps")
    job = taken.row.job
    assert (job.title, job.rank, job.systems) == ("Left rear weeps", "safety", ["brakes"])
    assert job.vehicle == checklist.entry.vehicle
    panel = tap(item_of(checklist, "panels"), "fail", cast.helper).row.job
    assert panel.rank == "needed" and panel.title.startswith("Failed: Panels fixed")
    hurts = tap(item_of(checklist, "noise"), "fail", cast.helper, hurts=True).row.job
    assert hurts.rank == "safety"
    loose = tap(item_of(checklist, "turbo"), "fail", cast.helper, note="Hub nut off").row.job
    assert (loose.rank, loose.systems[-1], loose.kinds_likely) == ("safety", "wheels", True)
    assert "hub_opened" in loose.kinds
    assert {reason.ref for reason in verdict_of(job.vehicle, NOW).do_not_drive_reasons} == {job.pk, hurts.pk, loose.pk}


def test_a_second_fail_opens_no_second_job(cast):
    item = item_of(made(cast), "pedal")
    first, second = (tap(item, "fail", cast.helper, minute) for minute in (0, 1))
    assert first.row.job == second.row.job
    assert Job.objects.exclude(recipe__in=TAKEN_AGAIN).count() == 1


def test_a_failed_item_is_ticked_as_mended_once_its_job_is_over(cast):
    item = item_of(made(cast), "pedal")
    taken = tap(item, "fail", cast.helper, note="Spongy")
    assert refused(item, "tick", cast.owner, minutes=1) == (
        "A fail stands: finish its job, then tick it as mended, or undo the fail."
    )
    assert refused(item, "mend", cast.owner, minutes=1) == ("Finish “Spongy” first, then tick it as mended.")
    Job.objects.filter(pk=taken.row.job.pk).update(state="signed", finished_at=NOW)
    assert tap(item, "mend", cast.owner, 2).item.state == "ticked"
    assert "it must have failed" in refused(item, "mend", cast.owner, minutes=3)


def test_what_was_failed_is_not_mended_by_dropping_its_job(cast):
    item = item_of(made(cast), "pedal")
    job = tap(item, "fail", cast.helper, note="Spongy").row.job
    steps.drop(job, by=cast.owner, at=NOW, reason="no such thing")
    assert refused(item, "mend", cast.helper, minutes=1) == (
        "“Spongy” was dropped, not done: undo the fail if nothing was wrong, or open it again."
    )


def test_what_does_not_apply_says_why(cast):
    item = item_of(made(cast), "turbo")
    assert refused(item, "leave_out", cast.owner) == "Write down in words why it does not apply."
    assert refused(item, "leave_out", cast.helper) == "Only the owner says that an item does not apply."
    assert tap(item, "leave_out", cast.owner, note="No turbo").item.state == "left_out"
    with pytest.raises(IntegrityError), transaction.atomic():
        CheckItem.objects.filter(pk=item.pk).update(note="")


def test_an_undo_brings_back_what_was_before(cast):
    item = item_of(made(cast), "noise")
    tap(item, "tick", cast.helper)
    taken = tap(item, "fail", cast.helper, 1)
    undone = checks.undo(item, by=cast.helper, at=NOW, key=uuid.uuid4())
    assert undone.item.state == "ticked"
    taken.row.job.refresh_from_db()
    assert taken.row.job.state == "dropped"
    checks.undo(item, by=cast.helper, at=NOW, key=uuid.uuid4())
    item.refresh_from_db()
    assert (item.state, item.by) == ("open", None)
    with pytest.raises(Refused, match="nothing to take back"):
        checks.undo(item, by=cast.helper, at=NOW, key=uuid.uuid4())
    assert CheckLog.objects.filter(item=item).count() == 4


@pytest.mark.parametrize("lowered", [{}, {"rank": "needed", "lowered_because": "Only its rubber.", "was_safety": True}])
def test_a_safety_job_stays_when_a_helper_takes_the_fail_back(cast, lowered):
    item = item_of(made(cast), "pedal")
    job = tap(item, "fail", cast.helper, note="Spongy").row.job
    Job.objects.filter(pk=job.pk).update(**lowered, title="Spongy")
    undone = checks.undo(item, by=cast.helper, at=NOW, key=uuid.uuid4())
    assert undone.said == "“Spongy” stays: only the owner can drop a safety job."
    job.refresh_from_db()
    assert job.state == "open"


def test_the_log_is_never_changed(cast):
    row = tap(item_of(made(cast), "pedal"), "tick", cast.helper).row
    with pytest.raises(TypeError):
        row.save()
    with pytest.raises(TypeError):
        CheckLog.objects.filter(pk=row.pk).update(step="fail")


def test_a_late_pass_from_a_phone_is_kept_and_the_fail_stands(cast):
    item = item_of(made(cast), "pedal")
    tap(item, "fail", cast.owner, 5)
    late = tap(item, "tick", cast.helper, 8, arrived=NOW + timedelta(minutes=60))
    assert late.item.state == "failed" and not late.counts
    assert late.said == "A fail beats a pass: Ines failed it."


def test_a_late_fail_from_a_phone_beats_a_pass_that_came_after_it(cast):
    item = item_of(made(cast), "pedal")
    tap(item, "tick", cast.owner, 10)
    late = tap(item, "fail", cast.helper, 5, arrived=NOW + timedelta(minutes=60))
    assert late.item.state == "failed" and late.row.job is not None


def test_a_phone_whose_clock_runs_ahead_ticks_no_later_than_it_was_heard(cast):
    item, heard = item_of(made(cast), "pedal"), NOW + timedelta(minutes=2)
    taken = tap(item, "tick", cast.helper, 600, arrived=heard)
    assert taken.item.at == heard


def test_work_after_a_tick_makes_it_void(cast):
    checklist = made(cast)
    for key in ("pedal", "noise"):
        tap(item_of(checklist, key), "tick", cast.helper)
    car = checklist.entry.vehicle
    assert not any(row.void for row in entry_checks(checklist.entry, NOW).main.rows)
    later = NOW + timedelta(hours=3)
    worked(car, "Bleed the brakes", ["brakes"], later)
    rows = {row.item.key: row for row in entry_checks(checklist.entry, later).main.rows}
    assert rows["pedal"].void == "Touched since: “Bleed the brakes” was worked on until 2 Mar."
    assert rows["pedal"].words == "tick again" and not rows["noise"].void
    tap(item_of(checklist, "pedal"), "tick", cast.helper, 181)
    ahead = {row.item.key: row.void for row in entry_checks(checklist.entry, later).main.rows if row.void}
    assert ahead == {"pedal": AHEAD}
    assert not any(row.void for row in entry_checks(checklist.entry, later + timedelta(minutes=1)).main.rows)


def test_what_was_touched_since_the_last_event_stands_first(cast):
    checklist = made(cast)
    car = checklist.entry.vehicle
    EntryFactory(vehicle=car, event__garage=cast.garage, event__gates_at=NOW - timedelta(days=20))
    worked(car, "Old brake work", ["brakes"], NOW - timedelta(days=30))
    assert not entry_checks(checklist.entry, NOW).main.first
    kinds = ["hydraulics_opened"]
    worked(car, "Open the front brakes", ["brakes"], NOW - timedelta(days=2), kinds=kinds)
    first = {row.item.key: row.why for part in entry_checks(checklist.entry, NOW).main.first for row in part.rows}
    assert first.keys() >= {"pedal", "brake-leaks", "pads-discs", "wheel-nuts"}, "a wheel comes off for it"
    assert first["pedal"] == "“Open the front brakes” was worked on until 28 Feb."


def test_the_verdict_names_fails_and_void_ticks_and_counts_the_rest(cast):
    checklist = made(cast)
    car = checklist.entry.vehicle
    tap(item_of(checklist, "neutral"), "fail", cast.helper, note="Starts in gear")
    found = verdict_of(car, NOW)
    said = [each.sentence for each in found.reasons if each.kind == "check"]
    left = len(load_items()) - 1
    assert said == [
        "Failed: Starts in neutral alone, reverse as the class asks. Starts in gear.",
        f"Not ticked: {left} of the {left + 1} items of the scrutineering list.",
    ]
    assert "scrutineering" not in found.not_recorded
    for item in CheckItem.objects.filter(checklist=checklist, state="open"):
        tap(item, "tick", cast.helper)
    assert [each.kind for each in verdict_of(car, NOW).reasons] == ["check", "job"]


def test_a_car_without_a_list_is_not_known(cast):
    assert "scrutineering list is not made" in verdict_of(entered(cast).vehicle, NOW).not_recorded


def test_a_tap_is_taken_back_once(cast):
    item = CheckItem.objects.filter(checklist=made(cast)).first()
    tap(item, "tick", cast.helper)
    of = CheckLog.objects.get(item=item).key
    checks.undo(item, by=cast.helper, at=NOW, key=uuid.uuid4(), of=of)
    with pytest.raises(Refused, match="That was taken back already"):
        checks.undo(item, by=cast.helper, at=NOW, key=uuid.uuid4(), of=of)
    with pytest.raises(Refused, match="There is nothing to take back"):
        checks.undo(item, by=cast.helper, at=NOW, key=uuid.uuid4())
    assert CheckLog.objects.filter(item=item).count() == 2


def test_what_a_car_does_not_have_is_the_owners_alone_to_say(cast):
    car = entered(cast).vehicle
    with pytest.raises(Refused, match="Only the owner says that Moth does not have a cage") as refusal:
        check_lists.say_has(car, ["harness"], by=cast.helper)
    assert refusal.value.field == "tags"
    check_lists.say_has(car, HAS, by=cast.helper)
    check_lists.say_has(car, ["harness"], by=cast.owner)
    with pytest.raises(Refused, match="does not have harness belts"):
        check_lists.say_has(car, [], by=cast.helper)
    check_lists.say_has(car, ["harness", "cage"], by=cast.helper)
    check_lists.say_has(car, [], by=cast.owner)
    check_lists.say_has(car, [], by=cast.helper)
