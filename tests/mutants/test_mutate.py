"""The faults that are made are the ones that are meant, one at a time, in source that still runs."""

import ast

from tests.mutants.mutate import mutants

SOURCE = '''
MOST = 9

def act(part, many):
    """Not more than MOST."""
    if many > MOST:
        raise ValueError("too many")
    if part and not part.gone:
        return many + 1
    return 0
'''


def test_each_kind_of_fault_is_made():
    made = {(mutant.before.splitlines()[0], mutant.after) for mutant in mutants(SOURCE)}
    assert made == {
        ("if many > MOST:", "pass"),
        ("many > MOST", "many >= MOST"),
        ("part and (not part.gone)", "part or not part.gone"),
        ("not part.gone", "part.gone"),
        ("1", "2"),
        ("1", "0"),
        ("0", "1"),
        ("0", "-1"),
    }


def test_each_has_one_fault_and_can_be_read():
    whole = ast.unparse(ast.parse(SOURCE))
    for mutant in mutants(SOURCE):
        ast.parse(mutant.source)
        assert mutant.source != whole
        assert "MOST = 9" in mutant.source


def test_nothing_outside_a_function_is_touched():
    assert list(mutants("A = 1 < 2\nB = not A\n")) == []
