"""The owner's yes to somebody who answered a link: what he can do is asked, and he reads that it was said."""

import pytest

from garage.models import Membership, VisitLink
from tests.builds.plan.plan_kit import evenings, followed, job, starts
from tests.builds.visits.test_visits import make, say, text
from tests.conftest import Browserless
from tests.factories import SkillFactory, VehicleFactory


@pytest.fixture
def guest(owner, cast, now):
    VehicleFactory(garage=cast.garage, name="Heron")
    own = say(make(owner), name="Ravi")["Location"]
    return VisitLink.objects.exclude(parent=None).get(), own


def test_it_asks_what_he_can_do_and_his_page_says_that_it_was_said(owner, cast, guest):
    link, own = guest
    welding = SkillFactory(garage=cast.garage, slug="weld", name="Welding")
    SkillFactory(slug="paint", name="Strange skill")
    page = text(owner, f"/visits/{link.pk}/take/")
    assert "Welding" in page and "Strange skill" not in page
    owner.press(f"/visits/{link.pk}/take/", {"member": "", "skills": [welding.pk]})
    ravi = Membership.objects.get(person__name="Ravi")
    assert list(ravi.skills.all()) == [welding] and not ravi.may_sign
    assert "The owner said yes: you are in the plan." in text(Browserless(), own)


def test_who_is_here_keeps_his_own_skills(owner, cast, guest):
    link, _ = guest
    welding = SkillFactory(garage=cast.garage, slug="weld", name="Welding")
    owner.press(f"/visits/{link.pk}/take/", {"member": cast.helper.pk, "skills": [welding.pk]})
    assert not cast.helper.skills.filter(pk=welding.pk).exists()


def test_the_list_of_links_says_of_a_name_only_that_it_was_written(owner, cast, guest):
    link, _ = guest
    said = f"came from the link …{link.parent.tail}: whoever answered wrote the name “Ravi”"
    listed = text(owner, "/links/")
    assert said in listed and "made by Ravi" not in listed and f"made by {cast.owner}" in listed
    owner.press(f"/visits/{link.pk}/take/", {"member": cast.helper.pk})
    assert f"{said}, and the owner said that it is {cast.helper}" in text(owner, "/links/")


class TestNobodyElseIsIn:
    """A visitor is planned while somebody who is at home in the garage is in, and never alone."""

    @pytest.fixture
    def ravi(self, owner, cast, guest):
        link, own = guest
        job(cast.garage.vehicles.get(), cast, title="Fit the fan")
        owner.press(f"/visits/{link.pk}/take/", {"member": ""})
        return Membership.objects.get(person__name="Ravi"), own

    def test_he_is_not_planned_alone_and_both_read_why(self, owner, cast, ravi):
        assert "Fit the fan" not in starts(followed(cast.garage))
        assert "Nobody of the garage is in then: you get jobs once somebody is." in text(Browserless(), ravi[1])
        assert "nobody of the garage is in on Thu 4 Mar 19:00–22:00: no visitor works alone" in text(owner, "/")

    def test_he_is_planned_from_when_somebody_comes_whether_or_not_that_one_works(self, owner, cast, ravi):
        evenings(cast.owner, days=[3], since=20)
        Membership.objects.filter(pk=cast.owner.pk).update(works=False)
        assert starts(followed(cast.garage))["Fit the fan"] == ("Thu 20:00", "Thu 21:00", "Ravi")
        assert "20:00 “Fit the fan”, Heron" in text(Browserless(), ravi[1])
        assert "no visitor works alone" not in text(owner, "/")

    def test_two_visitors_are_no_company_and_who_has_an_account_is(self, owner, cast, ravi):
        say(make(owner), name="Otto")
        other = VisitLink.objects.get(name="Otto")
        owner.press(f"/visits/{other.pk}/take/", {"member": ""})
        assert "Fit the fan" not in starts(followed(cast.garage))
        otto = Membership.objects.get(person__name="Otto").person
        otto.email = "otto@example.org"
        otto.save()
        assert starts(followed(cast.garage))["Fit the fan"][0] == "Thu 19:00"
