"""Hold points: work stops at the end of its job until a second pair of eyes has signed."""

import re
from datetime import timedelta

import pytest

from builds.steps.facts.looks import hands_looked_at
from builds.steps.pages.time_log import point_words
from builds.today.pages.news import news_since
from builds.verdict.facts.verdict import verdict_of
from builds.work.facts.work import load_work
from builds.work.models.hold_point import HoldPoint
from tests.factories import NOW, HoldPointFactory, JobFactory, LinkFactory, MembershipFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def job(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    return JobFactory(vehicle=car, title="Weld the arm", rank="safety", recipe="arm")


@pytest.fixture
def point(job):
    return HoldPointFactory(job=job, what="No undercut, no crater")


def finish(client, job):
    client.press(f"/jobs/{job.pk}/finish/")
    job.refresh_from_db()


def sign(client, point, **data):
    answer = client.press(f"/hold-points/{point.pk}/sign/", data)
    point.refresh_from_db()
    return answer


def said(client):
    return [str(message) for message in client.get("/people/").context["messages"]]


def test_added_by_a_helper(helper, job):
    answer = helper.press(f"/jobs/{job.pk}/hold-points/add/", {"what": "Look at the welds"})
    assert answer.status_code == 303
    assert HoldPoint.objects.get().what == "Look at the welds"


def test_too_long_is_said_at_the_field(owner, job):
    answer = owner.press(f"/jobs/{job.pk}/hold-points/add/", {"what": "x" * 10_000})
    assert answer.context["form"].errors["what"] == ["Ensure this value has at most 160 characters (it has 10000)."]


def test_a_finished_job_takes_no_more(owner, job):
    finish(owner, job)
    answer = owner.press(f"/jobs/{job.pk}/hold-points/add/", {"what": "Late"})
    assert answer.context["form"].errors["what"] == ["“Weld the arm” is done: open it again first."]


def test_finishing_stops_at_the_hold_point_and_names_it(helper, job, point):
    finish(helper, job)
    assert (job.state, job.finished_at) == ("held", NOW)
    assert said(helper) == ["“Weld the arm” stops at its hold point until it is signed: No undercut, no crater."]


@pytest.mark.parametrize("begun", [True, False])
def test_a_car_at_a_hold_point_is_not_driven_though_nobody_tapped_start(helper, job, point, begun):
    if begun:
        helper.press(f"/jobs/{job.pk}/start/")
    finish(helper, job)
    found = verdict_of(job.vehicle, NOW)
    assert found.do_not_drive
    assert "Hold point not signed on “Weld the arm”: No undercut, no crater" in [
        reason.sentence for reason in found.reasons
    ]


def test_held_before_anybody_touched_it_the_car_may_be_driven(owner, job, point):
    owner.press(f"/jobs/{job.pk}/hold/", {"reason": "no rod in the shop"})
    assert not verdict_of(job.vehicle, NOW).do_not_drive


def test_what_follows_waits_for_the_signature(owner, helper, job, point):
    after = JobFactory(vehicle=job.vehicle, title="Clean it")
    LinkFactory(before=job, after=after)
    finish(helper, job)
    owner.press(f"/jobs/{after.pk}/start/")
    assert said(owner) == ["“Weld the arm” has to be looked at first: it is done, and waits for a second pair of eyes."]
    sign(owner, point)
    owner.press(f"/jobs/{after.pk}/start/")
    after.refresh_from_db()
    assert after.state == "in_hand"


def test_one_tap_of_the_second_pair_of_eyes_signs_and_the_job_is_done(owner, helper, job, point):
    finish(helper, job)
    assert sign(owner, point).status_code == 303
    job.refresh_from_db()
    assert (point.signed_by.name, point.signed_at, point.alone) == ("Ines", NOW, False)
    assert (job.state, job.signed_by.name, job.finished_at) == ("signed", "Ines", NOW)


def test_the_last_of_two_ends_it(owner, helper, job, point):
    second = HoldPointFactory(job=job, what="Crack test")
    finish(helper, job)
    sign(owner, point)
    job.refresh_from_db()
    assert job.state == "held"
    sign(owner, second, seen="Dye, clean")
    job.refresh_from_db()
    assert (job.state, second.seen) == ("signed", "Dye, clean")


def test_whoever_worked_on_it_cannot_sign(helper, job, point):
    finish(helper, job)
    answer = sign(helper, point, seen="Fine")
    assert answer.status_code == 422
    assert answer.context["form"].errors["who"] == ["Tove worked on this: somebody else has to look at it and sign."]
    assert 'value="Fine"' in answer.content.decode()
    assert point.signed_at is None


def test_the_one_with_the_phone_can_say_who_looked_unless_he_worked_on_it(owner, helper, cast, job, point):
    other = MembershipFactory(garage=cast.garage, person__name="Otto")
    finish(helper, job)
    answer = sign(helper, point, who=cast.owner.pk)
    assert answer.context["form"].errors["who"] == [
        "Tove worked on this and cannot write down another's look: Ines signs it."
    ]
    assert point.signed_at is None
    sign(owner, point, who=other.pk)
    assert (point.signed_by, point.written_by) == (other, cast.owner)
    assert "Otto, 17:00, written down by Ines" in owner.get(f"/jobs/{job.pk}/").content.decode()


def test_nothing_is_looked_at_before_work_has_begun(owner, job, point):
    sign(owner, point)
    assert said(owner) == ["Work on “Weld the arm” has not begun: there is nothing to look at yet."]
    assert point.signed_at is None
    assert not owner.get(f"/jobs/{job.pk}/").context["view"].points[0].may_sign


def test_signed_while_the_work_goes_on_it_does_not_stop_the_finish(owner, helper, job, point):
    helper.press(f"/jobs/{job.pk}/start/")
    sign(owner, point)
    finish(helper, job)
    assert job.state == "done"


def test_signing_twice_is_refused(owner, helper, job, point):
    finish(helper, job)
    sign(owner, point)
    sign(owner, point)
    assert said(owner)[-1] == "This hold point is signed already."


def test_alone_in_the_garage_it_is_signed_and_recorded_as_alone(stranger, cast):
    car = VehicleFactory(garage=cast.stranger.garage)
    job = JobFactory(vehicle=car, made_by=cast.stranger)
    point = HoldPointFactory(job=job)
    finish(stranger, job)
    sign(stranger, point)
    assert point.alone
    assert "alone" in stranger.get(f"/jobs/{job.pk}/").context["view"].points[0].signed


def test_back_to_work_leaves_it_unsigned(owner, helper, job, point):
    finish(helper, job)
    helper.press(f"/jobs/{job.pk}/release/")
    job.refresh_from_db()
    assert (job.state, job.finished_at) == ("waiting", None)
    sign(owner, point)
    job.refresh_from_db()
    assert job.state == "waiting"


def test_the_owner_takes_one_off_but_not_where_the_work_waits(owner, helper, job, point):
    assert helper.press(f"/hold-points/{point.pk}/delete/").status_code == 403
    finish(helper, job)
    owner.press(f"/hold-points/{point.pk}/delete/")
    assert said(owner) == ["The work waits at this hold point: it is signed, not removed."]
    helper.press(f"/jobs/{job.pk}/release/")
    owner.press(f"/hold-points/{point.pk}/delete/")
    assert "came with its recipe, and lives hang on it" in said(owner)[0]
    point.job.vehicle.jobs.update(recipe="")
    assert owner.press(f"/hold-points/{point.pk}/delete/").status_code == 303 and not HoldPoint.objects.exists()


@pytest.fixture
def gap(owner, job):
    told = {"what": "Rotor in the middle", "asks": "Gap", "unit": "mm", "low": "1,5", "high": "3"}
    assert owner.press(f"/jobs/{job.pk}/hold-points/add/", told).status_code == 303
    return HoldPoint.objects.get()


@pytest.mark.parametrize(
    ("value", "sentence"),
    [
        ("", "This point asks for a value: Gap."),
        ("1,4", "1,4 mm is not 1.5 to 3 mm: it is not signed like that."),
        ("3.01", "3.01 mm is not 1.5 to 3 mm: it is not signed like that."),
        ("NaN", "Write a number such as 12.5 or 12,5, without marks for thousands."),
        ("tight", "Write a number such as 12.5 or 12,5, without marks for thousands."),
    ],
)
def test_a_point_that_asks_a_value_is_not_signed_without_a_good_one(owner, helper, job, gap, value, sentence):
    finish(helper, job)
    answer = sign(owner, gap, value=value, seen="feeler")
    assert answer.status_code == 422
    assert answer.context["form"].errors["value"] == [sentence]
    assert 'value="feeler"' in answer.content.decode()
    assert gap.signed_at is None


def test_the_value_stands_beside_the_signature_on_page_and_card(owner, helper, cast, job, gap):
    page = owner.get(f"/jobs/{job.pk}/").content.decode()
    assert "Asks for: Gap, 1.5 to 3 mm" in page
    assert point_words(gap, NOW) == "asks for Gap, 1.5 to 3 mm"
    finish(helper, job)
    assert sign(owner, gap, value="1,5").status_code == 303
    assert gap.value == "1,5"
    assert re.search(r"<p>\s*Gap: 1,5 mm\s*</p>", owner.get(f"/jobs/{job.pk}/").content.decode())
    assert point_words(gap, NOW) == "signed: Ines, 17:00. Gap: 1,5 mm"


def test_words_are_asked_for_without_a_unit(owner, helper, job):
    point = HoldPointFactory(job=job, what="Crack test done", asks="Done by whom, with what")
    finish(helper, job)
    assert sign(owner, point).status_code == 422
    sign(owner, point, value="Harbour Inspection, dye")
    page = owner.get(f"/jobs/{job.pk}/").content.decode()
    assert "Done by whom, with what: Harbour Inspection, dye" in page


def test_opened_again_the_value_goes_with_the_signature(owner, helper, job, gap):
    finish(helper, job)
    sign(owner, gap, value="2")
    owner.press(f"/jobs/{job.pk}/reopen/", {"reason": "moved"})
    gap.refresh_from_db()
    assert (gap.value, gap.signed_at) == ("", None)


@pytest.mark.parametrize(
    ("told", "field"),
    [
        ({"unit": "mm"}, "asks"),
        ({"asks": "Gap", "low": "1"}, "unit"),
        ({"asks": "Gap", "unit": "mm", "low": "3", "high": "1"}, "high"),
        ({"asks": "Gap", "unit": "mm", "low": "NaN"}, "low"),
        ({"asks": "Gap", "unit": "mm", "low": "9" * 20}, "low"),
        ({"asks": "x" * 61}, "asks"),
    ],
)
def test_what_cannot_be_asked_is_said_at_the_field(owner, job, told, field):
    answer = owner.press(f"/jobs/{job.pk}/hold-points/add/", {"what": "Look", **told})
    assert (answer.status_code, list(answer.context["form"].errors)) == (422, [field])
    assert not HoldPoint.objects.exists()


def test_whom_the_owner_does_not_let_sign_cannot_and_is_told_who_can(owner, helper, cast, job, point):
    finish(owner, job)
    cast.helper.may_sign = False
    cast.helper.save()
    assert not helper.get(f"/jobs/{job.pk}/").context["view"].points[0].may_sign
    refused = sign(helper, point).context["form"].errors["who"]
    assert refused == ["Tove may not sign: the owner says who may, on the page of each person."]
    assert "who" in sign(owner, point, who=cast.helper.pk).context["form"].errors
    assert point.signed_at is None


def test_who_may(cast, job, point):
    finish(cast.client("owner"), job)
    wanted = {"nobody": 302, "stranger": 404, "viewer": 403, "helper": 303}
    for who, status in wanted.items():
        client = cast.client(who)
        assert client.press(f"/hold-points/{point.pk}/sign/").status_code == status
    point.refresh_from_db()
    assert point.signed_by == cast.helper


def test_markup_in_what_was_seen_is_text(owner, helper, job, point):
    finish(helper, job)
    sign(owner, point, seen="<script>x</script>")
    assert "<script>x" not in owner.get(f"/jobs/{job.pk}/").content.decode()


def test_who_worked_and_who_only_looked_are_not_mixed_up(owner, helper, cast, job, point):
    """Ines worked and finished, Tove signed the last point: in the log of the job and in the news."""
    owner.press(f"/jobs/{job.pk}/start/")
    finish(owner, job)
    sign(helper, point)
    job.refresh_from_db()
    assert job.state == "signed"
    told = [(line.did, line.who) for line in owner.get(f"/jobs/{job.pk}/").context["view"].log[1:]]
    assert told == [("in hand", "Ines"), ("finished", "Ines"), ("signed", "Tove")]
    news = news_since(NOW - timedelta(hours=1), cast.garage, load_work(cast.garage, NOW), [cast.owner, cast.helper])
    assert [(line.who, line.did) for line in news.lines][:2] == [("Tove", "signed"), ("Ines", "finished")]
    assert cast.helper.pk not in hands_looked_at([job])[job.pk]
