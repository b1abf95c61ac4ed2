"""Who lends a skill for one job, and to whom: asked of the act itself."""

import pytest

from builds.steps.actions.skill_loans import lend
from builds.work.models.skill_loan import SkillLoan
from garage.actions.refused import Refused
from tests.factories import NOW, JobFactory, MembershipFactory, SkillFactory, VehicleFactory


@pytest.fixture
def weld(cast):
    skill = SkillFactory(garage=cast.garage, slug="weld", name="Welding")
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage), skill=skill)


def test_the_owner_or_whoever_has_it_lends_it(cast, weld):
    other = MembershipFactory(garage=cast.garage, role="helper")
    with pytest.raises(Refused, match="Only the owner or somebody who has it lends it: Welding"):
        lend(weld, other, by=cast.helper, at=NOW)
    cast.helper.skills.add(weld.skill)
    lend(weld, other, by=cast.helper, at=NOW)
    lend(weld, other, by=cast.owner, at=NOW)
    assert SkillLoan.objects.get().lent_by == cast.helper


def test_nobody_is_lent_what_he_has(cast, weld):
    cast.helper.skills.add(weld.skill)
    with pytest.raises(Refused, match="has it already: Welding"):
        lend(weld, cast.helper, by=cast.owner, at=NOW)


def test_a_job_that_asks_for_none_is_lent_none(cast, weld):
    weld.skill = None
    with pytest.raises(Refused, match="asks for no skill"):
        lend(weld, cast.helper, by=cast.owner, at=NOW)
    assert not SkillLoan.objects.exists()
