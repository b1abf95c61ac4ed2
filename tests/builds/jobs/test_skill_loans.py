"""A skill lent for one job: who may lend, what the plan makes of it, and taking it back."""

from datetime import timedelta

import pytest

from builds.plan.actions.follow import make_plan
from builds.plan.facts.problem import build_problem
from builds.plan.facts.stored import shown
from builds.plan.pages.odds import odds_page
from builds.work.models.skill_loan import SkillLoan
from garage.models import Skill
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    JobFactory,
    MemberHoursFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def weld(cast):
    for weekday in range(7):
        MemberHoursFactory(member=cast.helper, weekday=weekday)
    car = VehicleFactory(garage=cast.garage, name="Heron")
    event = EventFactory(garage=cast.garage, gates_at=NOW + timedelta(days=3))
    EntryFactory(event=event, vehicle=car)
    skill = Skill.objects.create(garage=cast.garage, slug="weld", name="Welding")
    return JobFactory(vehicle=car, title="Weld the arm", rank="needed", skill=skill)


def lend(client, job, member):
    return client.press(f"/jobs/{job.pk}/lend/", {"member": member.pk})


def placed(cast):
    make_plan(cast.garage, at=NOW)
    return set(shown(cast.garage).placed)


def test_nobody_can_until_the_skill_is_lent(owner, cast, weld):
    name = f"job-{weld.pk}"
    assert name not in placed(cast)
    assert lend(owner, weld, cast.helper).status_code == 303
    assert name in placed(cast)
    problem, _ = build_problem(cast.garage, NOW)
    (job,) = problem.jobs
    assert job.skill == "Welding or is Tove"
    odds_page(cast.garage, NOW)


def test_it_is_lent_for_that_job_alone(owner, cast, weld):
    other = JobFactory(vehicle=weld.vehicle, rank="needed", skill=weld.skill)
    lend(owner, weld, cast.helper)
    assert f"job-{other.pk}" not in placed(cast)


def test_those_who_have_the_skill_can_still_do_it(owner, cast, weld):
    lend(owner, weld, cast.helper)
    cast.owner.skills.add(weld.skill)
    problem, _ = build_problem(cast.garage, NOW)
    able = {row.name for row in problem.people if "Welding or is Tove" in row.skills}
    assert able == {"Ines", "Tove"}


def test_a_helper_without_the_skill_lends_nothing(helper, cast, weld):
    answer = lend(helper, weld, cast.helper)
    assert answer.status_code == 422
    assert "Only the owner or somebody who has it lends it: Welding." in answer.content.decode()
    assert not SkillLoan.objects.exists()


def test_a_helper_who_has_it_lends_it(helper, cast, weld):
    cast.helper.skills.add(weld.skill)
    assert lend(helper, weld, cast.owner).status_code == 303


def test_somebody_of_another_garage_is_no_choice(owner, cast, weld):
    answer = lend(owner, weld, cast.stranger)
    assert answer.status_code == 422 and "Choose somebody of this garage." in answer.content.decode()


def test_a_job_without_a_skill_has_nothing_to_lend(owner, cast, weld):
    plain = JobFactory(vehicle=weld.vehicle)
    answer = lend(owner, plain, cast.helper)
    assert "This job asks for no skill: anybody can do it." in answer.content.decode()


def test_taken_back_the_plan_knows_nothing_of_it(owner, cast, weld):
    lend(owner, weld, cast.helper)
    page = owner.get(f"/jobs/{weld.pk}/").content.decode()
    assert "Lent to Tove by Ines." in page
    owner.press(f"/lent/{SkillLoan.objects.get().pk}/delete/")
    assert f"job-{weld.pk}" not in placed(cast)
