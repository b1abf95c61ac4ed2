"""People: listed, added, changed, removed; links made for them; nobody reaches across a wall."""

import json
import re
from datetime import date, timedelta

import pytest

from garage.models import DayHours, Membership, Person, SignInLink, Skill
from tests.factories import NOW, GarageFactory, MemberHoursFactory, MembershipFactory, SkillFactory
from tests.pages import words

FORM = {"name": "Moll", "role": "helper", "works": "on"}


def text(answer) -> str:
    return words(answer.content.decode())


def test_the_list_tells_who_when_and_what(owner, cast, now):
    cast.helper.skills.add(SkillFactory(garage=cast.garage, slug="weld", name="Welding"))
    for weekday in (1, 3):
        MemberHoursFactory(member=cast.helper, weekday=weekday)
    shown = text(owner.get("/people/"))
    assert "Tove helper in from 18:00 until 22:00 Welding" in shown
    assert "Tue, Thu 18:00-22:00" in shown
    assert "Ines you owner not in today" in shown
    assert "Stranger" not in shown


def test_the_list_takes_as_many_queries_for_one_as_for_many(owner, cast, now, django_assert_num_queries):
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    owner.get("/people/")
    with CaptureQueriesContext(connection) as few:
        owner.get("/people/")
    for _ in range(5):
        member = MembershipFactory(garage=cast.garage)
        member.skills.add(SkillFactory(garage=cast.garage, slug="weld"))
        MemberHoursFactory(member=member)
        DayHours.objects.create(member=member, day=NOW.date(), kind="off")
    with django_assert_num_queries(len(few)):
        owner.get("/people/")


def test_the_owner_says_who_may_sign_and_the_page_tells(owner, cast, now):
    path = f"/people/{cast.helper.pk}/"
    assert "May sign what others worked on." in text(owner.get(path))
    owner.press(f"{path}edit/", {**FORM, "name": "Tove"})
    cast.helper.refresh_from_db()
    assert not cast.helper.may_sign
    assert "Does not sign." in text(owner.get(path))
    assert "Does not sign." in text(owner.get(f"/people/{cast.viewer.pk}/"))
    owner.press(f"{path}edit/", {**FORM, "name": "Tove", "may_sign": "on"})
    cast.helper.refresh_from_db()
    assert cast.helper.may_sign


def test_a_helper_cannot_let_himself_sign(helper, cast):
    answer = helper.press(f"/people/{cast.helper.pk}/edit/", {**FORM, "may_sign": "on"})
    assert answer.status_code == 403


def test_a_name_is_enough_and_such_a_person_cannot_sign_in(owner, cast):
    skill = SkillFactory(garage=cast.garage)
    answer = owner.press("/people/add/", {**FORM, "skills": [skill.pk]})
    member = Membership.objects.get(person__name="Moll")
    assert (answer.status_code, answer["Location"]) == (303, f"/people/{member.pk}/")
    assert (member.garage, member.role, member.works) == (cast.garage, "helper", True)
    assert list(member.skills.all()) == [skill]
    assert member.person.email is None
    assert not member.person.has_usable_password()


def test_when_a_friend_is_in_is_said_with_his_name(owner, cast):
    owner.press("/people/add/", {**FORM, "mon_fri": "6:30pm-10pm", "sun": "1000-1600"})
    week = Membership.objects.get(person__name="Moll").weekly_hours
    hours = set(week.values_list("weekday", "from_minute", "until_minute"))
    assert hours == {(day, 1110, 1320) for day in range(5)} | {(6, 600, 960)}
    answer = owner.press("/people/add/", {**FORM, "name": "Abel", "mon_fri": "late"})
    assert "Write hours such as 18:30-22:00" in answer.context["form"].errors["mon_fri"][0]


def test_whoever_comes_back_without_hours_has_those_that_he_had(owner, cast):
    for hours in ("18:30-22:00", ""):
        owner.press("/people/add/", {**FORM, "email": "moll@example.org", "sat": hours})
        member = Membership.objects.get(person__name="Moll")
        assert member.weekly_hours.count() == 1
        member.left_at = NOW
        member.save()


@pytest.mark.parametrize(
    ("wrong", "field", "sentence"),
    [
        ({"name": "TOVE"}, "name", "Somebody here is called TOVE already: tell the two apart."),
        ({"name": "x" * 10_000}, "name", "at most 60 characters"),
        ({"name": ""}, "name", "This field is required."),
        ({"email": "not one"}, "email", "Enter a valid email address."),
        ({"role": "king"}, "role", "Select a valid choice."),
    ],
)
def test_what_is_wrong_is_said_at_the_field_and_kept(owner, cast, wrong, field, sentence):
    answer = owner.press("/people/add/", {**FORM, "surname": "Kept as typed", **wrong})
    assert answer.status_code == 422
    assert sentence in answer.context["form"].errors[field][0]
    assert "Kept as typed" in answer.content.decode()
    assert Membership.objects.in_garage(cast.garage).count() == 3


def test_somebody_elses_e_mail_is_refused_whoever_has_it(owner, cast):
    for email in (cast.stranger.person.email, cast.helper.person.email.upper()):
        answer = owner.press("/people/add/", {**FORM, "email": email})
        assert answer.context["form"].errors["email"] == ["This e-mail cannot be used here: write another."]


def test_a_skill_of_another_garage_is_refused_without_its_name(owner, cast):
    foreign = SkillFactory(garage=cast.stranger.garage, slug="s", name="Secret skill")
    answer = owner.press("/people/add/", {**FORM, "skills": [foreign.pk]})
    assert answer.status_code == 422
    assert "skills" in answer.context["form"].errors
    assert "Secret skill" not in answer.content.decode()


def test_more_fields_than_the_form_has_change_nothing(owner, cast):
    more = {"garage": cast.stranger.garage.pk, "left_at": "2020-01-01", "is_active": ""}
    owner.press(f"/people/{cast.helper.pk}/edit/", {**FORM, "name": "Tove", **more})
    cast.helper.refresh_from_db()
    assert (cast.helper.garage, cast.helper.left_at) == (cast.garage, None)
    assert cast.helper.person.is_active


def test_markup_in_a_name_is_text(owner, cast):
    owner.press("/people/add/", {**FORM, "name": "<script>alert(1)</script>"})
    member = Membership.objects.latest("pk")
    for path in ("/people/", f"/people/{member.pk}/", f"/people/{member.pk}/edit/"):
        shown = owner.get(path).content.decode()
        assert "<script>alert" not in shown
        assert "&lt;script&gt;alert(1)&lt;/script&gt;" in shown


def test_a_role_is_changed_at_once_and_logged(owner, helper, cast, lines):
    answer = owner.press(f"/people/{cast.helper.pk}/edit/", {**FORM, "name": "Tove", "role": "viewer"})
    assert answer.status_code == 303
    assert helper.get(f"/people/{cast.helper.pk}/hours/").status_code == 403
    events = [json.loads(line) for line in lines]
    assert [(e["event"], e.get("whose"), e.get("role")) for e in events] == [
        ("role changed", cast.helper.person.pk, "viewer"),
        ("denied", None, None),
    ]


def test_the_last_owner_stays_owner_and_stays(owner, cast):
    sentence = "A garage keeps at least one owner: make somebody else owner first."
    path = f"/people/{cast.owner.pk}/"
    answer = owner.press(f"{path}edit/", {**FORM, "name": "Ines", "role": "helper"})
    assert answer.status_code == 422
    assert answer.context["form"].errors["role"] == [sentence]
    answer = owner.press(f"{path}delete/", follow=True)
    assert sentence in text(answer)
    cast.owner.refresh_from_db()
    assert (cast.owner.role, cast.owner.left_at) == ("owner", None)
    owner.press(f"/people/{cast.helper.pk}/edit/", {**FORM, "name": "Tove", "role": "owner"})
    answer = owner.press(f"{path}edit/", {**FORM, "name": "Ines", "role": "helper"})
    assert answer.status_code == 303


def test_whoever_is_removed_is_out_at_the_next_press_and_may_come_back(owner, helper, cast, now):
    email = cast.helper.person.email
    assert owner.press(f"/people/{cast.helper.pk}/delete/").status_code == 303
    assert helper.press(f"/people/{cast.helper.pk}/hours/").status_code in (302, 403)
    helper.force_login(cast.helper.person)
    answer = helper.press(f"/people/{cast.helper.pk}/hours/")
    assert answer.status_code == 403
    assert "You are not in this garage any more" in text(answer)
    assert helper.get("/first-run/").status_code == 404
    assert owner.get(f"/people/{cast.helper.pk}/").status_code == 404
    owner.press("/people/add/", {**FORM, "name": "Tove", "email": email})
    cast.helper.refresh_from_db()
    assert cast.helper.left_at is None
    assert Person.objects.filter(email=email).count() == 1


@pytest.mark.parametrize("way", ["changed", "taken in again"])
def test_a_name_is_counted_in_a_garage_that_he_left_too(owner, cast, now, way, django_capture_on_commit_callbacks):
    """What he did there is told by his name."""
    left = MembershipFactory(garage=GarageFactory(), person=cast.helper.person, left_at=NOW)
    path = f"/people/{cast.helper.pk}/edit/"
    if way == "taken in again":
        owner.press(f"/people/{cast.helper.pk}/delete/")
        path = "/people/add/"
    with django_capture_on_commit_callbacks(execute=True):
        answer = owner.press(path, {**FORM, "name": "Wren", "email": cast.helper.person.email})
    assert answer.status_code == 303 and Person.objects.get(pk=cast.helper.person_id).name == "Wren"
    left.garage.refresh_from_db()
    assert left.garage.writes == 1


def test_a_link_is_shown_once_and_only_its_digest_is_kept(owner, cast, now, lines):
    path = f"/people/{cast.helper.pk}/link/"
    assert "/enter/" not in owner.get(path).content.decode()
    data = {"key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    answer = owner.post(path, data)
    token = re.search(r"/enter/([\w-]+)/", answer.content.decode())[1]
    link = SignInLink.objects.get()
    assert link.person == cast.helper.person
    assert link.expires_at == NOW + timedelta(hours=24)
    assert token not in link.digest
    again = owner.post(path, data, follow=True)
    assert "/enter/" not in again.content.decode()
    assert SignInLink.objects.count() == 1
    assert json.loads(lines[0])["event"] == "link made"
    assert token not in "".join(lines)


def test_a_link_that_is_revoked_is_dead(owner, cast, now, lines):
    path = f"/people/{cast.helper.pk}/link/"
    token = re.search(r"/enter/([\w-]+)/", owner.press(path).content.decode())[1]
    assert owner.press(f"/people/{cast.helper.pk}/link/revoke/").status_code == 303
    assert [json.loads(line)["event"] for line in lines] == ["link made", "link revoked"]
    assert cast.client("nobody").get(f"/enter/{token}/").status_code == 404


def test_nobody_takes_over_a_person_who_is_in_another_garage_too(owner, cast):
    MembershipFactory(garage=GarageFactory(), person=cast.helper.person, role="owner")
    email = cast.helper.person.email
    path = f"/people/{cast.helper.pk}/"
    sentence = "Tove is in another garage too: only Tove can change this."
    assert sentence in text(owner.get(f"{path}link/")) + text(owner.get(f"{path}edit/"))
    assert owner.press(f"{path}link/").status_code == 403
    mine = {**FORM, "name": "Mine", "email": "mine@example.org", "role": "viewer"}
    assert owner.press(f"{path}edit/", mine).status_code == 303
    cast.helper.person.refresh_from_db()
    assert (cast.helper.person.name, cast.helper.person.email) == ("Tove", email)
    assert owner.press(f"{path}sign-out/").status_code == 403
    assert not SignInLink.objects.exists()


def test_the_owner_signs_a_helper_out_everywhere(owner, helper, cast, clock):
    assert helper.get("/people/").status_code == 200
    clock.forward(minutes=1)
    owner.press(f"/people/{cast.helper.pk}/sign-out/")
    assert helper.get("/people/").status_code == 302
    assert owner.get("/people/").status_code == 200


def test_a_skill_is_added_once(owner, cast):
    assert owner.press("/skills/add/", {"name": "Upholstery"}).status_code == 303
    assert Skill.objects.get(garage=cast.garage).slug == "upholstery"
    answer = owner.press("/skills/add/", {"name": "upholstery"})
    assert answer.context["form"].errors["name"] == ["upholstery is a skill already."]


@pytest.mark.parametrize("who", ["helper", "viewer", "stranger", "nobody"])
def test_only_the_owner_arranges_people(cast, who):
    client = cast.client(who)
    expected = {"helper": 403, "viewer": 403, "stranger": 404, "nobody": 302}[who]
    path = f"/people/{cast.helper.pk}/"
    for page in ("edit/", "link/"):
        assert client.get(path + page).status_code == expected
    for page in ("edit/", "link/", "link/revoke/", "delete/", "sign-out/"):
        assert client.press(path + page, FORM).status_code == expected
    if who in ("helper", "viewer"):
        for page in ("/people/add/", "/skills/add/"):
            assert client.press(page, FORM).status_code == 403
        assert client.get(path).status_code == 200
        assert "/edit/" not in client.get(path).content.decode()


def test_an_e_mail_is_seen_by_its_owner_and_the_garages(owner, helper, viewer, cast):
    path, email = f"/people/{cast.helper.pk}/", cast.helper.person.email
    assert [email in client.get(path).content.decode() for client in (owner, helper, viewer)] == [
        True,
        True,
        False,
    ]


def test_days_that_are_over_are_not_listed(owner, cast, now):
    for day in (date(2027, 3, 1), date(2027, 3, 9)):
        DayHours.objects.create(member=cast.helper, day=day, kind="off", note="away")
    shown = text(owner.get(f"/people/{cast.helper.pk}/"))
    assert "Tue 9 Mar 2027 : day off away" in shown
    assert "Mon 1 Mar" not in shown
