"""What was found or failed was mended after that, whatever moment its finish is given."""

from datetime import timedelta

import pytest

from builds.steps.actions import findings, jobs, steps
from garage.actions.refused import Refused
from tests.builds.scrutineering.check_kit import item_of, made, tap
from tests.factories import NOW, VehicleFactory

MINUTE = timedelta(minutes=1)
LATER = NOW + timedelta(hours=2)


@pytest.fixture
def failed(cast, now):
    return tap(item_of(made(cast), "wheel-nuts"), "fail", cast.helper).row.job


@pytest.fixture
def found(cast, now):
    during = jobs.add(VehicleFactory(garage=cast.garage), by=cast.owner, at=NOW - MINUTE, title="Look", work=(1, 2, 3))
    return findings.found(during, "Caliper bolt loose", hurts=True, by=cast.helper, at=NOW)


@pytest.mark.parametrize("which", ["failed", "found"])
def test_no_work_on_it_is_older_than_what_it_mends(request, cast, which):
    job = request.getfixturevalue(which)
    for act in (steps.start, steps.finish):
        with pytest.raises(Refused, match="That is before it was found or failed") as refused:
            act(job, by=cast.helper, at=LATER, moment=NOW - MINUTE)
        assert refused.value.field == "moment"
    steps.finish(job, by=cast.helper, at=LATER, moment=NOW, kinds=job.kinds)
    job.refresh_from_db()
    assert job.finished_at == NOW


def test_other_work_may_have_been_done_before_it_was_written_down(cast, now):
    job = jobs.add(
        VehicleFactory(garage=cast.garage), by=cast.owner, at=NOW, title="Wax", work=(1, 2, 3), systems=["body"]
    )
    steps.finish(job, by=cast.helper, at=LATER, moment=NOW - MINUTE)
    job.refresh_from_db()
    assert job.finished_at == NOW - MINUTE
