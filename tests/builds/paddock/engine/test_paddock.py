"""What was tapped without signal meets what others did meanwhile: the table of who stands."""

from datetime import UTC, datetime

import pytest

from builds.paddock.engine import ADDED, DID, WEIGHT, ItemStanding, merge

AT = datetime(2027, 3, 2, 9, 10, tzinfo=UTC)


def met(state: str, to: str, seen: int = 3):
    return merge(ItemStanding(4, state, "Tove", AT), seen, to)


def test_nobody_wrote_meanwhile():
    for state in WEIGHT:
        for to in WEIGHT:
            assert met(state, to, seen=4) == merge(ItemStanding(4, state), 4, to)
            assert met(state, to, seen=4).apply and not met(state, to, seen=4).told


@pytest.mark.parametrize("state", sorted(set(WEIGHT) - set(ADDED)))
def test_the_same_word_twice_is_said_once(state):
    found = met(state, state)
    assert not found.apply and not found.clash and not found.told


@pytest.mark.parametrize(
    ("state", "to", "apply"),
    [
        ("ticked", "failed", True),
        ("failed", "ticked", False),
        ("signed", "ticked", False),
        ("signed", "failed", False),
        ("signed", "marked", False),
        ("marked", "signed", True),
        ("ticked", "signed", True),
        ("ticked", "left_out", False),
        ("left_out", "ticked", False),
        ("open", "ticked", True),
        ("ticked", "open", False),
        ("failed", "open", False),
    ],
)
def test_a_signature_wins_over_a_tick_and_a_fail_over_a_pass(state, to, apply):
    found = met(state, to)
    assert found.apply is apply and found.clash is not apply
    assert found.told.startswith(f"Tove {DID[state]}, Tue 2 Mar 09:10")


def test_whatever_is_not_applied_and_differs_is_told():
    for state in WEIGHT:
        for to in WEIGHT:
            found = met(state, to)
            if to not in ADDED and state != to:
                assert found.told and (found.apply or found.clash)


@pytest.mark.parametrize("to", ADDED)
def test_a_reading_or_a_word_is_added_whatever_came_meanwhile(to):
    assert all(met(state, to).apply for state in WEIGHT)


def test_a_state_that_there_is_not_is_no_state():
    with pytest.raises(KeyError):
        met("open", "perhaps")
