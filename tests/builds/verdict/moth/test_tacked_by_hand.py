"""A weld of work that somebody wrote down by hand: tacked is not welded, and welded is looked at."""

from datetime import timedelta

import pytest

from builds.steps.actions import jobs, steps
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import KINDS, tick_all
from tests.factories import NOW

pytestmark = [pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
SAID = (
    "A weld is only tacked: no job comes next. “Tack the lower arm bracket, weld it out next week” was the last of it."
)


def done(cast, car, title, hours, **more):
    job = jobs.add(car, by=cast.helper, at=NOW + hours * HOUR, title=title, work=(30, 60, 90), **more)
    steps.finish(job, by=cast.helper, at=NOW + hours * HOUR, kinds=["part_weld"])
    steps.sign(job, by=cast.owner, at=NOW + hours * HOUR + HOUR / 2)
    return job


def put_right(cast, car, at):
    for kind in KINDS:
        take(car, kind, cast.owner, at=at)
    tick_all(cast, at)


def test_it_is_not_driven_until_it_is_welded_out_and_looked_at(cast, car):
    done(cast, car, "Tack the lower arm bracket, weld it out next week", 1, systems=["suspension"])
    put_right(cast, car, NOW + 3 * HOUR)
    verdict = verdict_of(car, NOW + 4 * HOUR)
    assert (verdict.do_not_drive, [reason.sentence for reason in verdict.reasons]) == (True, [SAID])
    out = {"title": "Weld out the lower arm bracket", "work": (1, 2, 3), "kinds": ["part_weld"]}
    ahead = jobs.add(car, by=cast.helper, at=NOW + 4 * HOUR, systems=["suspension"], **out)
    told = " ".join(reason.sentence for reason in verdict_of(car, NOW + 4 * HOUR).reasons)
    assert "A weld is only tacked: “Weld out the lower arm bracket” comes next." in told
    steps.finish(ahead, by=cast.helper, at=NOW + 5 * HOUR)
    put_right(cast, car, NOW + 6 * HOUR)
    assert "A weld is only tacked" in " ".join(reason.sentence for reason in verdict_of(car, NOW + 6 * HOUR).reasons)
    steps.sign(Job.objects.get(pk=ahead.pk), by=cast.owner, at=NOW + 6 * HOUR)
    assert verdict_of(car, NOW + 7 * HOUR).state == "fit"


def test_another_weld_does_not_clear_it_and_called_otherwise_it_stays_tacked(cast, car):
    job = done(cast, car, "Tack weld the lower arm bracket", 1, systems=["suspension"])
    done(cast, car, "Weld the steering arm", 2, systems=["steering"])
    told = {"work": (1, 2, 3), "systems": ["suspension"], "rank": "", "lowered_because": "", "stations": {}}
    job = Job.objects.get(pk=job.pk)
    jobs.change(job, by=cast.owner, at=NOW + 3 * HOUR, title="Weld the bracket", left_minutes=None, **told)
    put_right(cast, car, NOW + 4 * HOUR)
    assert "A weld is only tacked" in verdict_of(car, NOW + 5 * HOUR).reasons[0].sentence


def test_by_the_form_it_is_said_on_its_page(cast, car):
    helper = cast.client("helper")
    sent = {"title": "Tack the pickup on the chassis", "likely": "1 h", "vehicle": car.pk, "hands": "1", "weight": "1"}
    helper.press(f"/cars/{car.pk}/jobs/add/", sent)
    job = Job.objects.get(title="Tack the pickup on the chassis")
    assert (job.weld, job.kinds, job.rank) == ("tacked", ["chassis_weld"], "safety")
    assert "which is not driveable" in helper.get(f"/jobs/{job.pk}/").content.decode()
    helper.press(f"/jobs/{job.pk}/finish/", {"kinds": ["chassis_weld"], "told": "True"})
    assert verdict_of(car, NOW + HOUR).do_not_drive
