"""Why a job cannot be begun: each reason is one sentence, by the clock of the garage."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from builds.work.engine.blocks import NOT_IN_SIGHT, NotOver, StillRuns, ready_words
from builds.work.engine.state_words import STATE_WORDS

AT = datetime(2027, 3, 2, 17, tzinfo=UTC)
LISBON, RIGA = ZoneInfo("Europe/Lisbon"), ZoneInfo("Europe/Riga")


@pytest.mark.parametrize("state", STATE_WORDS)
def test_a_job_that_is_not_over_is_named_with_its_state(state):
    said = NotOver("Weld it", state).sentence
    assert said == f"“Weld it” has to be done first: it is {STATE_WORDS[state]}."


def test_one_that_is_done_but_for_a_look_says_so():
    said = NotOver("Weld it", "held", looked_for=True).sentence
    assert said == "“Weld it” has to be looked at first: it is done, and waits for a second pair of eyes."


@pytest.mark.parametrize(
    ("zone", "hours", "said"),
    [
        (LISBON, 2, "ready 19:00"),
        (RIGA, 2, "ready 21:00"),
        (RIGA, 5, "ready Wed 00:00"),
        (LISBON, 24 * 7, "ready Tue 9 Mar 17:00"),
    ],
)
def test_a_wait_says_when_it_is_over_by_the_clock_of_the_garage(zone, hours, said):
    ready = AT + timedelta(hours=hours)
    assert ready_words(ready, AT, zone) == said
    assert StillRuns("Prime it", "the primer cures", ready, AT, zone).sentence == f"The primer cures: {said}."


def test_a_wait_without_a_reason_names_the_job_before():
    said = StillRuns("Prime it", "", AT + timedelta(hours=1), AT, LISBON).sentence
    assert said == "The wait after “Prime it” runs: ready 18:00."


def test_a_cure_that_is_not_in_sight_waits_for_warmth():
    assert ready_words(NOT_IN_SIGHT, AT, LISBON) == "ready when it is warmer"
