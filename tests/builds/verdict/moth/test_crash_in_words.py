"""What people write after a kerb strike: whatever they call it, nothing of before holds, belts and helmets are out."""

import uuid
from datetime import timedelta

import pytest

from builds.paddock.actions import write
from builds.paddock.engine import Write
from builds.readings.engine.kinds_said import part_kinds
from builds.steps.actions import steps
from builds.steps.engine.by_words import job_said, rank_said
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from tests.builds.gear.gear_kit import piece
from tests.builds.verdict.ways_kit import said
from tests.factories import NOW

HOUR = timedelta(hours=1)
CRASHES = """
    Hit the kerb hard, front left; Clouted the tyre wall; Spun into the gravel; Off at turn three, through the hay
    bales; Kerbed the nearside front; Tapped the barrier; Shunt at the start; Rolled it; Went off backwards into the
    bank; crashed; Met the barrier; Contact with another car; T-boned; Stuffed it in the hedge; hit a cone; landed
    heavily after the jump; bottomed out hard; over the kerb at the hairpin
"""
NONE = """
    New crash helmet; Crash pad on the dash; Kerb weight with driver; Roll the arches; Wheel touches the arch; Turn off
    the fan; Fit the crash bar
"""
# A look says of itself that there is something to look at, and not that a car was hit.
LOOKS = """
    crash check; Crash inspection; Crash damage check; Post-crash check; Crash-check of the front; shunt check; Kerb
    strike inspection; Collision damage inspection, done twice
"""
HIT_AND_LOOKED_AT = """
    Hit kerb, check front; Crash, check front left; Crash - check over; Shunt: check it over; Crash check: it went into
    the bank; Check after the shunt; Look over after hitting the kerb; Crash checks nothing out
"""


def titles(text):
    return [" ".join(title.split()) for title in text.split(";")]


def test_what_is_one_and_what_only_sounds_so():
    told = {title: job_said(title) for title in titles(CRASHES) + titles(NONE)}
    assert [title for title, said in told.items() if "crash" in said.kinds and said.hurts] == titles(CRASHES)
    assert "crash" not in part_kinds("Kerb feeler", ["body"])


def test_a_look_called_after_a_crash_is_safety_work_and_none():
    told = {title: job_said(title) for title in titles(LOOKS) + titles(HIT_AND_LOOKED_AT)}
    assert all(said.hurts and rank_said(said, title) == "safety" for title, said in told.items())
    assert [title for title, said in told.items() if "crash" in said.kinds] == titles(HIT_AND_LOOKED_AT)
    assert told["crash check"].kinds == ()


@pytest.mark.usefixtures("now")
def test_a_line_that_names_a_look_voids_nothing(cast, entry, car):
    belts, line = piece(car), "crash check"
    write(entry.event, Write(f"note-{entry.pk}", "said", 0, NOW, value=line), by=cast.helper, at=NOW, key=uuid.uuid4())
    job = Job.objects.get(title=line)
    assert (job.rank, job.kinds) == ("safety", [])
    told = said(car, NOW + HOUR)
    assert "“crash check”" in told and belts.name not in told and "Void: Front toe." not in told


@pytest.mark.usefixtures("now")
@pytest.mark.parametrize("line", ["Hit the kerb hard, front left", "Spun into the gravel"])
def test_a_note_of_the_day_voids_what_a_crash_does_whatever_its_finish_says(cast, entry, car, line):
    belts = piece(car)
    write(entry.event, Write(f"note-{entry.pk}", "said", 0, NOW, value=line), by=cast.helper, at=NOW, key=uuid.uuid4())
    job = Job.objects.get(title=line)
    assert (job.rank, job.kinds) == ("safety", ["crash"])
    told = said(car, NOW + HOUR)
    assert "Void: Front toe." in told and f"Went through a crash: {belts.name}." in told
    steps.finish(job, by=cast.helper, at=NOW + HOUR, kinds=["crash"])
    assert "Void: Front toe." in said(car, NOW + 2 * HOUR)
    assert verdict_of(car, NOW + 2 * HOUR).do_not_drive
