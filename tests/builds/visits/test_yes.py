"""The owner's yes to somebody who answered a link: what he can do is asked, and he reads that it was said."""

import pytest

from garage.models import Membership, VisitLink
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
