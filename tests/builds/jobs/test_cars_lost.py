"""A helper on a car that is not his: what he sees there he says; what he began there he puts down or hands over."""

import pytest

from builds.plan.facts.problem import build_problem
from builds.planner.check import faults
from builds.planner.search import plan as planned
from builds.steps.actions import findings, steps
from builds.work.models.job import Job
from builds.work.models.span import Span
from garage.actions.refused import Refused
from garage.models import Membership
from tests.factories import NOW, EntryFactory, JobFactory, MemberHoursFactory, MembershipFactory, VehicleFactory
from tests.pages import words
from tests.pictures import as_file

OFF = "Tove does not work on Moth: the owner says who does, on the page of each person."


def limited(member):
    """He works on no car from now on."""
    Membership.objects.filter(pk=member.pk).update(every_car=False)
    return Membership.objects.get(pk=member.pk)


@pytest.fixture
def moth(cast, now):
    return VehicleFactory(garage=cast.garage, name="Moth")


class TestWhatHeSees:
    @pytest.fixture(autouse=True)
    def tove(self, cast, moth):
        return limited(cast.helper)

    def test_in_passing_it_opens_a_job_and_the_journal_says_who(self, helper, owner, moth):
        page = helper.get(f"/cars/{moth.pk}/").content.decode()
        assert f"/cars/{moth.pk}/found/" in page and f"/cars/{moth.pk}/jobs/add/" not in page
        answer = helper.press(f"/cars/{moth.pk}/found/", {"line": "Cracked bracket at the arm", "hurts": "on"})
        opened = Job.objects.get()
        assert answer["Location"].startswith(f"/jobs/{opened.pk}/")
        assert (opened.vehicle, opened.rank, opened.seen, opened.made_by.name) == (moth, "safety", True, "Tove")
        assert "Tove found something" in words(owner.get(f"/journal/?of=cars-{moth.pk}").content.decode())

    def test_at_the_work_of_others_it_is_found_in_that(self, helper, cast, moth):
        job = JobFactory(vehicle=moth, state="in_hand", made_by=cast.owner)
        assert f"/jobs/{job.pk}/found/" in helper.get(f"/jobs/{job.pk}/").content.decode()
        assert helper.press(f"/jobs/{job.pk}/found/", {"line": "Chafed hose"}).status_code == 303
        opened = Job.objects.get(title="Chafed hose")
        assert (opened.found_in, opened.finding.by.name) == (job, "Tove")

    def test_and_he_works_on_neither(self, helper, tove, moth):
        opened = findings.seen(moth, "Chafed hose", by=tove, at=NOW)
        for step in ("start", "finish", "edit", "drop", "hold"):
            assert helper.press(f"/jobs/{opened.pk}/{step}/", {"reason": "not so bad"}).status_code == 403, step

    def test_a_photo_that_cannot_be_kept_is_told_without_offering_another_there(self, helper, moth):
        sent = {"line": "Cracked bracket", "pictures": as_file(b"GIF89a not really", "bad.gif")}
        answer = helper.press(f"/cars/{moth.pk}/found/", sent)
        said = words(helper.get(answer["Location"]).content.decode())
        assert "bad.gif is not a JPEG" in said and "Add another here" not in said


def test_whoever_only_looks_finds_nothing(viewer, cast, moth):
    assert f"/cars/{moth.pk}/found/" not in viewer.get(f"/cars/{moth.pk}/").content.decode()
    with pytest.raises(Refused, match="You can look, but not change"):
        findings.seen(moth, "Chafed hose", by=cast.viewer, at=NOW)


@pytest.mark.parametrize(
    ("line", "rank", "likely"), [("Track rod end has play", "safety", True), ("It does not look right", "needed", True)]
)
def test_its_words_say_how_grave_it_is_as_in_a_job(helper, moth, line, rank, likely):
    helper.press(f"/cars/{moth.pk}/found/", {"line": line})
    opened = Job.objects.get()
    assert (opened.title, opened.rank, opened.kinds_likely, opened.found_in) == (line, rank, likely, None)


class TestWhatHeBegan:
    @pytest.fixture
    def job(self, cast, moth):
        """Begun by Tove, who then loses the car."""
        job = JobFactory(vehicle=moth, title="Fit the arm", made_by=cast.owner)
        steps.start(job, by=cast.helper, at=NOW)
        limited(cast.helper)
        return Job.objects.get(pk=job.pk)

    def test_he_puts_it_down_from_wherever_it_stands_and_does_nothing_else_to_it(self, helper, job):
        for path in ("/", f"/cars/{job.vehicle_id}/", f"/jobs/{job.pk}/"):
            page = helper.get(path).content.decode()
            assert f"/jobs/{job.pk}/stop/" in page and f"/jobs/{job.pk}/finish/" not in page, path
        for step in ("finish", "hold", "drop", "edit"):
            assert helper.press(f"/jobs/{job.pk}/{step}/", {"reason": "no time left"}).status_code == 403
        assert helper.press(f"/jobs/{job.pk}/stop/", {"stood": "in_hand"}).status_code == 303
        job.refresh_from_db()
        assert job.state == "waiting"
        assert helper.press(f"/jobs/{job.pk}/start/").status_code == 403
        assert helper.press(f"/jobs/{job.pk}/stop/").status_code == 403  # it is in his hands no more
        assert f"/jobs/{job.pk}/stop/" not in helper.get(f"/jobs/{job.pk}/").content.decode()

    def test_or_hands_it_over_to_one_who_works_there(self, helper, cast, job):
        form = helper.get(f"/jobs/{job.pk}/stop/").context["form"]
        assert [member.name for member in form.fields["crew"].queryset] == ["Ines"]
        other = JobFactory(vehicle=job.vehicle, title="Bleed", made_by=cast.owner, state="open")
        steps.start(other, by=cast.owner, at=NOW)
        answer = helper.press(f"/jobs/{job.pk}/stop/", {"crew": [cast.owner.pk], "left": "1 h"})
        said = words(helper.get(answer["Location"]).content.decode())
        assert "“Fit the arm” is in hand: Ines." in said and "“Bleed” is put down." in said
        job.refresh_from_db()
        assert (job.state, job.left_minutes) == ("in_hand", 60)
        running = Span.objects.get(job=job, until_at=None)
        assert (running.people, running.by) == ([cast.owner], cast.helper)

    def test_not_to_one_who_does_not(self, cast, job):
        brann = limited(MembershipFactory(garage=cast.garage, role="helper", person__name="Brann"))
        with pytest.raises(Refused, match="Brann does not work on Moth"):
            steps.stop(job, by=Membership.objects.get(pk=cast.helper.pk), at=NOW, crew=[brann])
        job.refresh_from_db()
        assert job.state == "in_hand"

    def test_another_hand_that_lost_the_car_does_not_touch_it(self, cast, job):
        brann = MembershipFactory(garage=cast.garage, role="helper", person__name="Brann")
        with pytest.raises(Refused, match="Brann does not work on Moth"):
            steps.stop(job, by=limited(brann), at=NOW)

    def test_until_then_the_plan_has_it_in_his_hands(self, cast, job):
        for weekday in range(7):
            MemberHoursFactory(member=cast.helper, weekday=weekday, from_minute=0, until_minute=1440)
        EntryFactory(event__garage=cast.garage, vehicle=job.vehicle)
        problem, _ = build_problem(cast.garage, NOW)
        plan = planned(problem, seconds=0)
        assert faults(problem, plan) == []
        assert [place.people for place in plan.placed if place.id == f"job-{job.pk}"] == [(f"person-{cast.helper.pk}",)]


def test_whoever_works_there_hands_over_in_one_step_too(helper, cast, moth):
    job = JobFactory(vehicle=moth, title="Fit the arm", made_by=cast.owner)
    steps.start(job, by=cast.helper, at=NOW)
    helper.press(f"/jobs/{job.pk}/stop/", {"crew": [cast.owner.pk]})
    assert Span.objects.get(job=job, until_at=None).people == [cast.owner]
