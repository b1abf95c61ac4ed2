"""Whatever phones did without signal, in whatever order it arrives, an item comes to one end."""

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from builds.packing.engine import pack_states
from builds.scrutineering.engine import check_states as states
from builds.scrutineering.engine.check_states import CHECK_STATES, CheckState, LogRow

START = datetime(2027, 3, 2, 17, 0, tzinfo=UTC)
MOMENTS = st.integers(0, 8).map(lambda minutes: START + timedelta(minutes=minutes))


@st.composite
def logs(draw):
    """Logs in which every mend answers a fail and every undo a line that is there."""
    rows = []
    for place in range(draw(st.integers(0, 9))):
        fails = [row.key for row in rows if row.step == "fail"]
        taken = [row.key for row in rows if row.step != states.UNDO]
        steps = ["tick", "fail", "leave_out"]
        steps += ["mend"] if fails else []
        steps += [states.UNDO] if taken else []
        step = draw(st.sampled_from(steps))
        answers = ""
        if step == "mend":
            answers = draw(st.sampled_from(fails))
        elif step == states.UNDO:
            answers = draw(st.sampled_from(taken))
        rows.append(LogRow(f"k{place}", step, draw(MOMENTS), answers))
    return rows


def _state(rows):
    return states.state_after(states.deciding(rows))


@given(logs(), st.randoms(use_true_random=False))
def test_the_order_in_which_lines_arrive_changes_nothing(rows, random):
    shuffled = list(rows)
    random.shuffle(shuffled)
    assert states.deciding(shuffled) == states.deciding(rows)


@given(logs())
def test_it_has_failed_as_long_as_a_fail_stands_that_nobody_mended(rows):
    gone = {row.answers for row in rows if row.step == states.UNDO}
    kept = [row for row in rows if row.step != states.UNDO and row.key not in gone]
    mended = {row.answers for row in kept if row.step == "mend"}
    fails = [row for row in kept if row.step == "fail" and row.key not in mended]
    assert (_state(rows) == CheckState.FAILED) == bool(fails)


@given(logs(), MOMENTS)
def test_no_pass_lifts_a_fail(rows, moment):
    if _state(rows) != CheckState.FAILED:
        rows = [*rows, LogRow("f", "fail", moment)]
    for step in ("tick", "leave_out"):
        late = LogRow("z", step, START + timedelta(days=1))
        assert _state([*rows, late]) == CheckState.FAILED


@given(logs())
def test_taking_lines_back_one_by_one_ends_open(rows):
    for place in range(len(rows) + 1):
        row = states.deciding(rows)
        if row is None:
            break
        rows = [*rows, LogRow(f"u{place}", states.UNDO, START, row.key)]
    assert _state(rows) == CheckState.OPEN


@given(logs(), st.sampled_from(list(CHECK_STATES.steps)))
def test_a_step_that_is_not_refused_leads_where_the_table_says(rows, step):
    state = _state(rows)
    if CHECK_STATES.refusal(step, state):
        return
    moment, more = START + timedelta(days=1), list(rows)
    if step == "mend":
        more += [LogRow(f"m{row.key}", "mend", moment, row.key) for row in states.unmended(rows)]
    else:
        more.append(LogRow("z", step, moment))
    assert _state(more) == CHECK_STATES.after(step)


PACKED = st.lists(
    st.tuples(MOMENTS, st.uuids().map(str), st.sampled_from(list(pack_states.PACK_STATES.steps))), max_size=8
)


@given(PACKED, st.randoms(use_true_random=False))
def test_the_last_hand_on_a_pack_line_decides_whatever_arrives_first(taps, random):
    rows = [pack_states.PackTap(*tap) for tap in taps]
    shuffled = list(rows)
    random.shuffle(shuffled)
    last = pack_states.deciding(shuffled)
    assert last == pack_states.deciding(rows)
    assert (last is None) == (not rows)
    assert last is None or all(row.at <= last.at for row in rows)
