"""The journal in words, and what an address is about."""

import pytest

from garage.engine.journal import act_words, things_of


@pytest.mark.parametrize(
    ("act", "words"),
    [
        ("job_finish", "finished a job"),
        ("hold_point_sign", "signed a hold point"),
        ("station_hold_add", "wrote down a station kept for a car"),
        ("share_add", "made a shared page"),
        ("person_delete", "took a person out of the garage"),
    ],
)
def test_what_was_done_in_words(act, words):
    assert act_words(act) == words


@pytest.mark.parametrize(
    ("paths", "things"),
    [
        (["/jobs/12/finish/", "/jobs/12/?effect=3"], [("jobs", 12)]),
        (["/cars/3/jobs/add/", "/jobs/15/"], [("cars", 3), ("jobs", 15)]),
        (["/paddock/4/write/", "/paddock/4/items/note-1/"], [("events", 4)]),
        (["/skills/add/", "/people/", ""], []),
        (["/jobs/" + "9" * 30 + "/"], []),
        (["/jobs/12x/"], []),
    ],
)
def test_what_an_address_is_about(paths, things):
    assert things_of(paths) == things
