"""What becomes of the job of a fail that is taken back: dropped, unless begun or another fail stands on it."""

import uuid
from datetime import timedelta

import pytest

from builds.scrutineering.actions import checks
from builds.steps.actions import steps
from garage.actions.refused import Refused
from tests.builds.scrutineering.check_kit import item_of, made, tap
from tests.factories import NOW


@pytest.fixture
def item(cast):
    return item_of(made(cast), "pedal")


def taken_back(item, by, minutes=9):
    return checks.undo(item, by=by, at=NOW + timedelta(minutes=minutes), key=uuid.uuid4()).said


def test_one_that_nobody_began_is_dropped(cast, item):
    job = tap(item, "fail", cast.helper, note="Spongy").row.job
    assert taken_back(item, cast.owner) == f"“{job}” is dropped."
    job.refresh_from_db()
    assert job.state == "dropped"


@pytest.mark.parametrize("put_down", [False, True])
def test_one_that_hands_were_on_stays(cast, item, put_down):
    job = tap(item, "fail", cast.helper, note="Spongy").row.job
    steps.start(job, by=cast.helper, at=NOW + timedelta(minutes=1))
    if put_down:
        steps.stop(job, by=cast.helper, at=NOW + timedelta(minutes=2))
    assert taken_back(item, cast.owner) == f"“{job}” stays."
    job.refresh_from_db()
    assert job.state == ("waiting" if put_down else "in_hand")


def test_of_one_that_is_over_nothing_is_said(cast, item):
    job = tap(item, "fail", cast.helper, note="Spongy").row.job
    steps.drop(job, by=cast.owner, at=NOW + timedelta(minutes=1), reason="it was the other car")
    assert taken_back(item, cast.owner) == ""


def test_one_on_which_another_fail_stands_stays(cast, item):
    job = tap(item, "fail", cast.helper, note="Spongy").row.job
    assert tap(item, "fail", cast.owner, 1, note="spongy").row.job == job
    assert taken_back(item, cast.owner) == f"“{job}” stays."
    assert taken_back(item, cast.owner, 10) == f"“{job}” is dropped."


def test_what_was_taken_back_is_not_taken_back_again(cast, item):
    first = tap(item, "tick", cast.helper).row
    told = {"by": cast.owner, "at": NOW + timedelta(minutes=1)}
    undone = checks.undo(item, key=uuid.uuid4(), of=first.key, **told).row
    with pytest.raises(Refused, match="That was taken back already"):
        checks.undo(item, key=uuid.uuid4(), of=first.key, **told)
    for nothing in (undone.key, uuid.uuid4()):
        with pytest.raises(Refused, match="There is nothing to take back"):
            checks.undo(item, key=uuid.uuid4(), of=nothing, **told)
    assert item.log.count() == 2
