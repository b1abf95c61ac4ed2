"""“I can come Thursday”: said without an account, seen at once, planned with, never more than hours."""

import re
from datetime import date, timedelta

import pytest

from garage.actions import visits
from garage.actions.refused import Refused
from garage.logs import PlainLine
from garage.models import DayHours, Membership, Visit, VisitLink
from tests.builds.plan.plan_kit import evenings, followed, job, starts
from tests.conftest import Browserless, queries
from tests.factories import NOW, EventFactory, VehicleFactory
from tests.pages import words

THURSDAY = "2027-03-04"


def make(client, member=""):
    answer = client.press("/visits/add/", {"member": member, "days": "14"})
    assert answer.status_code == 201
    return re.search(r"/visit/[\w-]+/", answer.content.decode())[0]


def say(address, guest=None, **more):
    sent = {"days": [THURSDAY], "since": "19:00", "until": "22:00", **more}
    return (guest or Browserless()).press(address, sent)


def text(client, path):
    answer = client.get(path)
    assert answer.status_code == 200
    return words(answer.content.decode())


@pytest.fixture
def heron(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    job(car, cast, title="Fit the fan")
    return car


class TestSomebodyOfTheGarage:
    def test_his_hours_count_at_once_and_the_plan_follows(self, owner, cast, heron, django_capture_on_commit_callbacks):
        address = make(owner, cast.helper.pk)
        with django_capture_on_commit_callbacks(execute=True):
            answer = say(address)
        assert (answer.status_code, answer["Location"]) == (303, address)
        assert starts(followed(cast.garage))["Fit the fan"] == ("Thu 19:00", "Thu 20:00", "Tove")
        assert "Tove: Thu 4 Mar 19:00–22:00 in the plan" in text(owner, "/")

    def test_his_page_has_his_job(self, owner, cast, heron):
        address = make(owner, cast.helper.pk)
        say(address)
        assert "Thu 4 Mar, 19:00–22:00 You are in the plan. 19:00 “Fit the fan”, Heron" in text(Browserless(), address)

    def test_his_page_has_a_reason_where_there_is_no_job(self, owner, cast, heron):
        evenings(cast.owner, days=[1])
        address = make(owner, cast.helper.pk)
        say(address)
        said = "You are in the plan. Nothing is next for Tove: of the open jobs 1 is planned for somebody else."
        assert said in text(Browserless(), address)

    def test_a_job_of_his_other_evening_is_not_somebody_elses(self, owner, cast, heron):
        address = make(owner, cast.helper.pk)
        say(address, days=[THURSDAY, "2027-03-05"])
        said = text(Browserless(), address)
        assert "Thu 4 Mar, 19:00–22:00 You are in the plan. 19:00 “Fit the fan”, Heron" in said
        assert "Nothing is next for Tove: of the open jobs 1 is planned for Tove at another time." in said

    def test_what_he_said_last_stands(self, owner, cast, heron):
        address = make(owner, cast.helper.pk)
        say(address)
        say(address, since="20:00")
        say(address, since="20:00")
        rows = DayHours.objects.of(cast.helper).values_list("day", "kind", "from_minute", "until_minute")
        assert list(rows) == [(date(2027, 3, 4), "instead", 1200, 1320)]
        assert Visit.objects.count() == 1

    def test_hours_are_read_as_everywhere_else(self, owner, cast, heron):
        say(make(owner, cast.helper.pk), since="6:30 pm", until="10:15 pm")
        assert (Visit.objects.get().from_minute, Visit.objects.get().until_minute) == (1110, 1335)

    def test_he_says_that_he_cannot_come_after_all(self, owner, cast, heron):
        evenings(cast.helper, days=[3])
        address = make(owner, cast.helper.pk)
        say(address)
        Browserless().press(address, {"not": str(Visit.objects.get().pk)})
        assert DayHours.objects.of(cast.helper).get().kind == "off"
        assert "not Thu 4 Mar" in text(owner, "/")

    def test_nobody_withdraws_another_links_evening(self, owner, cast, heron):
        say(make(owner, cast.helper.pk))
        other = make(owner, cast.owner.pk)
        for given in (str(Visit.objects.get().pk), "x", "9" * 30, "²"):
            assert Browserless().press(other, {"not": given}).status_code == 303
        assert Visit.objects.get().state == "taken"

    def test_hours_while_he_is_at_an_event_are_refused_in_words(self, owner, cast, heron):
        EventFactory(garage=cast.garage, name="Saltmarsh", gates_at=NOW + timedelta(days=1)).people.add(cast.helper)
        answer = say(make(owner, cast.helper.pk), days=["2027-03-03"])
        assert answer.status_code == 422 and "Tove is at Saltmarsh then" in answer.content.decode()
        assert not Visit.objects.exists()

    def test_a_link_of_somebody_who_left_is_dead(self, owner, cast, heron):
        address = make(owner, cast.helper.pk)
        owner.press(f"/people/{cast.helper.pk}/delete/")
        assert Browserless().get(address).status_code == 404

    def test_what_is_over_is_not_withdrawn(self, owner, cast, heron, monkeypatch):
        address = make(owner, cast.helper.pk)
        say(address)
        monkeypatch.setattr("garage.clock.now", lambda: NOW + timedelta(days=7))
        Browserless().press(address, {"not": str(Visit.objects.get().pk)})
        assert Visit.objects.get().state == "taken"
        assert DayHours.objects.of(cast.helper).get().kind == "instead"


class TestMeanwhile:
    """What stood when it was looked at is looked at again once nobody else writes."""

    def guest(self, owner):
        say(make(owner), name="Ravi")
        return VisitLink.objects.select_related("garage", "parent", "member").exclude(parent=None).get()

    def test_who_was_taken_while_he_said_a_day_counts(self, owner, cast, heron):
        link = self.guest(owner)
        owner.press(f"/visits/{link.pk}/take/", {"member": ""})
        visits.say(link, days=[date(2027, 3, 5)], since=1140, until=1320, at=NOW)
        assert set(Visit.objects.values_list("state", flat=True)) == {"taken"}

    def test_who_was_taken_while_he_withdrew_is_not_in(self, owner, cast, heron):
        visit = self.guest(owner).visits.get()
        owner.press(f"/visits/{visit.link_id}/take/", {"member": ""})
        visits.withdraw(visit, at=NOW)
        assert DayHours.objects.get().kind == "off"

    def test_a_link_that_was_revoked_takes_nothing(self, owner, cast, heron):
        link = self.guest(owner)
        visits.revoke(link, at=NOW)
        with pytest.raises(Refused, match="revoked"):
            visits.say(link, days=[date(2027, 3, 5)], since=1140, until=1320, at=NOW)
        assert Visit.objects.count() == 1

    def test_nobody_of_another_garage_is_taken_for_him(self, owner, cast, heron):
        with pytest.raises(Refused, match="of this garage"):
            visits.take(self.guest(owner), member=cast.stranger, today=NOW.date())


class TestAGuest:
    @pytest.mark.parametrize("key", ["", "x", "9" * 50])
    def test_without_the_key_of_his_button_is_given_nobodys_link(self, owner, heron, key):
        address = make(owner)
        for _ in range(2):
            answer = say(address, name="Ravi", key=key)
            assert answer.status_code == 422 and "press the button again" in answer.content.decode()
        assert not Visit.objects.exists() and VisitLink.objects.count() == 1

    def test_waits_for_the_owners_yes_and_changes_no_plan(self, owner, cast, heron):
        answer = say(make(owner), name="Ravi")
        assert answer.status_code == 303
        assert "Ravi: Thu 4 Mar 19:00–22:00 waits for your yes" in text(owner, "/")
        assert not followed(cast.garage).placed
        assert "The owner has not answered yet." in text(Browserless(), answer["Location"])

    def test_becomes_somebody_of_hours_alone(self, owner, cast, heron):
        own = say(make(owner), name="Ravi")["Location"]
        Membership.objects.filter(pk=cast.owner.pk).update(works=False)
        evenings(cast.owner, days=[3])
        owner.press(f"/visits/{VisitLink.objects.exclude(parent=None).get().pk}/take/", {"member": ""})
        ravi = Membership.objects.get(person__name="Ravi")
        assert (ravi.may_sign, ravi.works, ravi.person.email) == (False, True, None)
        assert not ravi.person.has_usable_password() and not ravi.skills.exists()
        assert starts(followed(cast.garage))["Fit the fan"] == ("Thu 19:00", "Thu 20:00", "Ravi")
        assert "“Fit the fan”, Heron" in text(Browserless(), own)

    def test_once_taken_counts_at_once(self, owner, cast, heron):
        own = say(make(owner), name="Ravi")["Location"]
        owner.press(f"/visits/{VisitLink.objects.exclude(parent=None).get().pk}/take/", {"member": ""})
        say(own, days=["2027-03-05"])
        assert set(Visit.objects.values_list("state", flat=True)) == {"taken"}

    def test_who_calls_himself_as_somebody_here_is_not_taken_for_him_by_himself(self, owner, cast, heron):
        say(make(owner), name="Tove")
        link = VisitLink.objects.exclude(parent=None).get()
        assert link.member is None and not DayHours.objects.exists()
        refused = owner.press(f"/visits/{link.pk}/take/", {"member": ""})
        assert refused.status_code == 422 and "called Tove already" in refused.content.decode()
        assert owner.press(f"/visits/{link.pk}/take/", {"member": cast.helper.pk}).status_code == 303
        assert DayHours.objects.of(cast.helper).count() == 1

    def test_is_told_not_this_time(self, owner, cast, heron):
        own = say(make(owner), name="Ravi")["Location"]
        owner.press(f"/visits/{VisitLink.objects.exclude(parent=None).get().pk}/refuse/")
        assert "Not this time, says the garage." in text(Browserless(), own)
        assert "Ravi reads “not this time”." in text(owner, "/")
        assert "Ravi" not in text(owner, "/")

    def test_a_second_tap_finds_the_first_answer(self, owner, heron):
        address, key = make(owner), "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c12"
        first, second = (say(address, name="Ravi", key=key) for _ in range(2))
        assert first["Location"] == second["Location"] != address
        assert VisitLink.objects.exclude(parent=None).count() == Visit.objects.count() == 1

    def test_reads_nothing_of_the_garage_before_a_yes(self, owner, cast, heron):
        cast.owner.person.surname = "Calder"
        cast.owner.person.save()
        address = make(owner)
        own = say(address, name="Ravi")["Location"]
        for page in (address, own):
            seen = Browserless().get(page).content.decode()
            for secret in ("Heron", "Ines", "Tove", "Calder", "Fit the fan", "@example.org"):
                assert secret not in seen

    def test_nobody_elses_rows_are_taken(self, owner, cast, stranger, heron):
        say(make(owner), name="Ravi")
        link = VisitLink.objects.exclude(parent=None).get()
        assert stranger.press(f"/visits/{link.pk}/take/").status_code == 404
        refused = owner.press(f"/visits/{link.pk}/take/", {"member": cast.stranger.pk})
        assert refused.status_code == 422 and link.member is None
        assert owner.press(f"/visits/{link.parent_id}/take/", {"member": ""}).status_code == 422


class TestItsLink:
    def test_revoked_over_and_wrong_are_one_and_the_same(self, owner, heron, monkeypatch):
        address = make(owner)
        own = say(address, name="Ravi")["Location"]
        wrong = Browserless().get("/visit/" + "x" * 27 + "/")
        owner.press(f"/visits/{VisitLink.objects.get(parent=None).pk}/revoke/")
        for path in (address, own):
            revoked = Browserless().get(path)
            assert revoked.status_code == 404 and revoked.content == wrong.content
        assert say(address, name="Moll").status_code == 404
        assert "Ravi" not in text(owner, "/")
        other = make(owner)
        monkeypatch.setattr("garage.clock.now", lambda: NOW + timedelta(days=14))
        assert Browserless().get(other).status_code == 404

    @pytest.mark.parametrize(("days", "answer"), [("0", 422), ("1", 201), ("90", 201), ("91", 422)])
    def test_lasts_a_day_to_ninety(self, owner, now, days, answer):
        assert owner.press("/visits/add/", {"days": days}).status_code == answer

    def test_too_many_answers_wait(self, owner, cast, heron):
        address = make(owner, cast.helper.pk)
        answers = [say(address).status_code for _ in range(13)]
        assert answers == [303] * 12 + [429]
        assert say(make(owner, cast.owner.pk)).status_code == 303

    def test_thirty_guests_and_no_more(self, owner, heron, monkeypatch):
        address = make(owner)
        monkeypatch.setattr("garage.actions.visits.may_say", lambda *_, **__: 0)
        assert [say(address, name=f"Guest {number}").status_code for number in range(31)] == [303] * 30 + [422]

    @pytest.mark.parametrize(
        "wrong",
        [
            {"days": []},
            {"days": ["2027-03-01"]},
            {"days": ["2027-03-16"]},
            {"since": "22:00", "until": "22:00"},
            {"until": "24:01"},
            {"until": "late"},
            {"name": ""},
            {"name": "a" * 61},
        ],
    )
    def test_what_cannot_be_is_said_at_its_field(self, owner, heron, wrong):
        answer = say(make(owner), **{"name": "Ravi", **wrong})
        assert answer.status_code == 422
        assert list(answer.context["form"].errors) == [next(reversed(wrong))]
        assert not Visit.objects.exists()

    def test_only_its_own_door_takes_it_and_no_log_holds_it(self, owner, heron, caplog):
        caplog.set_level("INFO", "garage.security")
        caplog.handler.setFormatter(PlainLine())
        token = make(owner).split("/")[2]
        Browserless().get(f"/visit/{token}/")
        for door in (f"/shared/{token}/", f"/enter/{token}/", f"/feed/{token}/garage.ics"):
            assert Browserless().get(door).status_code == 404
        assert token not in caplog.text and token not in str(VisitLink.objects.values().get())

    def test_only_the_owner_makes_and_answers(self, helper, viewer, owner, heron):
        say(make(owner), name="Ravi")
        link = VisitLink.objects.exclude(parent=None).get()
        for client in (helper, viewer):
            assert client.press("/visits/add/", {"days": "1"}).status_code == 403
            assert client.press(f"/visits/{link.pk}/take/").status_code == 403
            assert "Ravi" not in text(client, "/")

    def test_more_evenings_cost_no_query_more(self, owner, cast, heron):
        address = make(owner, cast.helper.pk)
        say(address)
        followed(cast.garage)
        Browserless().get(address)
        one = queries(Browserless(), address)
        say(address, days=["2027-03-04", "2027-03-05", "2027-03-06", "2027-03-07"])
        followed(cast.garage)
        Browserless().get(address)
        assert queries(Browserless(), address) <= one
