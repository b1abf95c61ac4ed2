"""What a test calls is the same when it is read back."""

from tests.mutants.calls import Called, keep, kept


def test_what_was_traced_is_read_back_as_it_was(tmp_path):
    called = {"tests/test_a.py::test_b": Called(0.25, frozenset({"parts/a.py:one", "parts/a.py:two"}))}
    keep(tmp_path / "a.json", called)
    assert kept(tmp_path / "a.json") == called
    assert [file.name for file in tmp_path.iterdir()] == ["a.json"]
