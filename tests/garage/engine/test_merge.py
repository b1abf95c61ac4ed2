"""Of two writers each keeps his words; where both wrote, neither is passed over."""

import pytest

from garage.engine.merge import merged


@pytest.mark.parametrize(
    ("was", "stands", "typed", "taken", "clashes"),
    [
        (["1"], ["1"], ["1"], {}, ()),
        (["1"], ["1"], ["2"], {}, ()),
        (["1"], ["2"], ["1"], {"n": ["2"]}, ()),
        (["1"], ["2"], ["2"], {}, ()),
        (["1"], ["2"], ["3"], {}, ("n",)),
        (["1"], ["2"], [], {}, ("n",)),
        (["1"], [], ["1"], {"n": []}, ()),
        (["1"], [], ["2"], {}, ("n",)),
        ([], ["2"], [], {"n": ["2"]}, ()),
        ([], ["2"], ["3"], {}, ("n",)),
    ],
)
def test_one_field_of_two_writers(was, stands, typed, taken, clashes):
    found = merged({"n": was}, {"n": stands}, {"n": typed})
    assert (found.taken, found.clashes) == (taken, clashes)


def test_a_field_that_the_drawn_form_did_not_have_was_empty_then():
    assert merged({}, {"n": ["2"]}, {}).taken == {"n": ["2"]}
    assert merged({}, {"n": ["2"]}, {"n": ["3"]}).clashes == ("n",)


def test_fields_are_met_one_by_one():
    found = merged({"a": ["1"], "b": ["1"]}, {"a": ["2"], "b": ["1"]}, {"a": ["1"], "b": ["3"]})
    assert found.taken == {"a": ["2"]}
    assert found.clashes == ()
