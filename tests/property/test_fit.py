"""Random designations read back as they were spelt; what goes together does so both ways round."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from parts.engine.fit import (
    FitError,
    Thread,
    Threaded,
    fits,
    miss,
    parse,
    read,
    stored,
    together,
    wish,
)
from parts.engine.fit.numbers import INCH
from parts.engine.fit.thread import EXTERNAL, INTERNAL, METRIC, UNIFIED
from parts.engine.fit.verdict import FITS

SIZES = [Fraction(k, 16) for k in range(4, 33)] + [Fraction(60 + 13 * k, 1000) for k in range(13)]
grade = st.integers(3, 9).map(str)
hands = st.booleans()


@st.composite
def metric(draw):
    diameter = Fraction(draw(st.integers(10, 640)), 10)
    pitch = Fraction(draw(st.integers(8, 160)), 40)
    pitch = min(pitch, diameter / 2 // Fraction(1, 20) * Fraction(1, 20))
    side = draw(st.sampled_from([EXTERNAL, INTERNAL, ""]))
    letters = "efgh" if side == EXTERNAL else "GH"
    classes = [draw(grade) + draw(st.sampled_from(letters)) for _ in range(draw(st.integers(1, 2)))]
    tolerance = "".join(dict.fromkeys(classes)) if side else ""
    if not side and draw(st.booleans()):
        tolerance = f"{draw(grade)}H/{draw(grade)}g"
    length = draw(st.sampled_from(["", "S", "N", "L"]))
    return Thread(METRIC, diameter, pitch, draw(hands), side, tolerance, length)


@st.composite
def unified(draw):
    size, count = draw(st.sampled_from(SIZES)), draw(st.integers(4, 80))
    count = max(count, -(-2 // size))
    tolerance = draw(st.sampled_from(["", "1A", "2A", "3A", "1B", "2B", "3B"]))
    side = {"A": EXTERNAL, "B": INTERNAL}.get(tolerance[-1:], "")
    series = draw(st.sampled_from(["", "UN", "UNS", "UNEF"]))
    left = draw(hands)
    return Thread(UNIFIED, size * INCH, INCH / count, left, side, tolerance=tolerance, series=series)


threads = metric() | unified()


@given(threads)
def test_a_thread_is_read_back_from_its_spelling(thread):
    assert parse(str(thread)) == thread


@given(metric(), st.sampled_from("×xX*"), st.sampled_from(["", " "]), st.booleans(), st.booleans())
def test_every_dress_of_a_metric_designation_is_one_thread(thread, times, gap, comma, late):
    head = f"M{float(thread.diameter):g}{gap}{times}{gap}{float(thread.pitch):g}"
    rest = [thread.tolerance, thread.length]
    rest.insert(2 if late else 0, "LH" if thread.left else "")
    text = "-".join([head, *filter(None, rest)])
    assert parse(text.replace(".", ",") if comma else text) == thread


@given(threads, threads)
def test_together_does_not_mind_the_order(one, other):
    assert together(one, other) == together(other, one)


@given(threads, threads)
def test_together_only_with_equal_forms_and_opposite_sides(one, other):
    goes = together(one.on(EXTERNAL), other.on(INTERNAL)).state == FITS
    assert goes == (one.form == other.form)


@given(threads)
def test_a_thread_goes_together_with_its_like_alone(thread):
    assert together(thread.on(EXTERNAL), thread.on(INTERNAL)).state == FITS
    mirrored = Thread(thread.system, thread.diameter, thread.pitch, not thread.left, INTERNAL)
    assert together(thread.on(EXTERNAL), mirrored).state != FITS


@given(threads, threads)
def test_every_miss_is_told_and_its_figures_are_possible(bolt, nut):
    if bolt.form == nut.form:
        return
    found = miss(bolt, nut)
    assert 0 <= found.overlap <= 100
    assert found.turns is None or found.turns > 0
    assert str(bolt) in found.sentence
    assert "only 0 %" not in found.sentence


@given(threads, st.sampled_from(["", "cone60", "flat"]))
def test_an_interface_is_read_back_as_it_is_kept(thread, seat):
    kept = Threaded(thread, seat)
    assert read(stored(kept)) == kept
    assert fits(kept, kept).state == FITS


@given(st.text(max_size=100))
def test_any_text_is_a_thread_or_one_sentence(text):
    try:
        thread = parse(text)
    except FitError as refused:
        assert "\n" not in str(refused)
        assert str(refused).endswith((".", "?"))
    else:
        assert parse(str(thread)) == thread


@given(st.text(max_size=100) | st.text('M12×x.,-5/ 6gHV½"#', max_size=40))
def test_any_text_is_a_wish(text):
    found = wish(text)
    assert found.wants or found.rest == text
