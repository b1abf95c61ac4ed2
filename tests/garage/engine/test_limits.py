"""How much one may ask of a server in a minute."""

from garage.engine.limits import KEPT, Allowance, Meter

INES, HOUSE = Allowance("saves person 1", 60), Allowance("saves garage 1", 90)


def test_as_many_as_it_says_at_once_and_then_one_a_second():
    meter = Meter()
    assert [meter.claim([INES], 100.0) for _ in range(60)] == [None] * 60
    assert meter.claim([INES], 100.0) == (INES, 1)
    assert meter.claim([INES], 100.9) == (INES, 1)
    assert meter.claim([INES], 101.0) is None
    assert meter.claim([INES], 101.0) == (INES, 1)
    assert [meter.claim([INES], 161.0) for _ in range(61)][-2:] == [None, (INES, 1)]


def test_what_is_refused_counts_nowhere_so_that_others_of_the_garage_go_on():
    meter = Meter()
    for _ in range(60):
        meter.claim([INES, HOUSE], 0.0)
    assert all(meter.claim([INES, HOUSE], 0.0) == (INES, 1) for _ in range(500))
    tove = Allowance("saves person 2", 60)
    assert [meter.claim([tove, HOUSE], 0.0) for _ in range(31)] == [*[None] * 30, (HOUSE, 1)]
    assert meter.claim([Allowance("saves garage 2", 90)], 0.0) is None


def test_nought_is_no_limit_and_names_that_owe_nothing_are_forgotten():
    meter = Meter()
    assert all(meter.claim([Allowance("saves person 1", 0)], 0.0) is None for _ in range(1000))
    for number in range(KEPT + 1):
        meter.claim([Allowance(f"{number}", 60)], float(number))
    assert len(meter._empty_at) < 10
