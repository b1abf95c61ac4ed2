"""The journal in words, and what an address is about."""

import pytest

from garage.engine.journal import act_words, people_in, things_of, with_names, without_names


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


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("Tove is in until 22:00.", "{people-2} is in until 22:00."),
        ("“Fit Tove's seat” is written down.", "“Fit {people-2}'s seat” is written down."),
        ("Tove Marie is out. What Tove Marie did stays.", "{people-3} is out. What {people-3} did stays."),
        ("“Fit the Tovex” is changed.", "“Fit the Tovex” is changed."),
        ("A. (old) is changed.", "{people-4} is changed."),
        ("", ""),
    ],
)
def test_somebody_is_kept_by_his_key_and_read_by_the_name_that_he_has(said, kept):
    called = {2: "Tove", 3: "Tove Marie", 4: "A. (old)"}
    assert without_names(said, [*called.items(), (9, "Tove")]) == kept
    assert with_names(kept, called) == said
    assert "Tove " not in with_names(kept, dict.fromkeys(called, "Somebody who left"))
    assert people_in(kept) <= {*called} and with_names("{people-7} did", called) == "somebody did"


def test_no_half_of_a_key_is_kept_of_what_is_too_long():
    said = without_names("x" * 492 + " Tove is out", [(123456, "Tove")])
    assert said == "x" * 492 + " " and without_names("{ " + "x" * 498, []) == "{ " + "x" * 498
