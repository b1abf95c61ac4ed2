"""Every table of states: no state without a word, no way that is not in it, each refusal one sentence."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builds.packing.engine.pack_states import PACK_STATES
from builds.scrutineering.engine.check_states import CHECK_STATES
from builds.work.models.states import JOB_STATES

TABLES = {"job": JOB_STATES, "check": CHECK_STATES, "pack": PACK_STATES}


@st.composite
def asked(draw):
    """A table, one of its steps and one of its states."""
    table = draw(st.sampled_from(list(TABLES.values())))
    return table, draw(st.sampled_from(list(table.steps))), draw(st.sampled_from(list(table.labels)))


@given(asked())
def test_a_refusal_is_one_sentence_and_only_where_the_table_has_no_way(row):
    table, step, state = row
    said = table.refusal(step, state)
    assert (said is None) == (state in table.steps[step].before) == table.allows(step, state)
    assert said is None or (said[0].isupper() and said.endswith(".") and "{" not in said)


@given(asked())
def test_a_state_is_the_same_as_the_text_that_a_row_keeps(row):
    table, step, state = row
    assert table.refusal(step, str(state)) == table.refusal(step, state)


@pytest.mark.parametrize("name", TABLES)
def test_every_step_leads_from_known_states_to_a_known_state_and_each_can_be_reached(name):
    table = TABLES[name]
    assert {state for step in table.steps.values() for state in (*step.before, step.after)} <= set(table.labels)
    reached, before = {"open"}, set()
    while reached != before:
        before = set(reached)
        reached |= {step.after for step in table.steps.values() if not reached.isdisjoint(step.before)}
    assert reached == set(table.labels)


@pytest.mark.parametrize(
    ("table", "step", "state", "said"),
    [
        (JOB_STATES, "start", "done", "To start a job it must be open or put down; this one is done."),
        (JOB_STATES, "hold", "held", "To hold a job it must be open, in hand or put down; this one is held."),
        (JOB_STATES, "sign", "open", "To sign a job it must be done; this one is open."),
        (CHECK_STATES, "mend", "open", "To tick as mended an item it must have failed; this one is open."),
        (
            CHECK_STATES,
            "tick",
            "failed",
            "A fail stands: finish its job, then tick it as mended, or undo the fail.",
        ),
        (PACK_STATES, "pack", "packed", "To pack it, it must be not packed or stays here; it is packed."),
        (PACK_STATES, "want", "open", "To want back it, it must be stays here; it is not packed."),
    ],
)
def test_what_a_refusal_says(table, step, state, said):
    assert table.refusal(step, state) == said


def test_unknown_names_are_errors():
    with pytest.raises(KeyError):
        JOB_STATES.refusal("paint", "open")
    with pytest.raises(KeyError):
        JOB_STATES.refusal("start", "lost")
