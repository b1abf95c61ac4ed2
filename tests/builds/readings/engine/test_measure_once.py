"""Which open job takes a reading after all the work that disturbs it, and what is left over."""

import pytest

from builds.readings.engine.once import Once, OpenJob, measure_once

ARM = OpenJob(("steering_arm",))
ROD = OpenJob(("jam_nut",))
ALIGN = OpenJob(("jam_nut",), ("toe_front",))


def test_without_a_job_that_measures_all_of_it_is_left_over():
    assert measure_once(["toe_front"], {1: ARM, 2: ROD}, []) == Once((), ("toe_front",), (1, 2))


def test_only_the_last_of_a_chain_comes_before_what_is_left_over():
    found = measure_once(["toe_front"], {1: ARM, 2: ROD}, [(1, 9), (9, 2)])
    assert found.before == (2,)


def test_a_job_that_measures_is_put_after_the_work():
    found = measure_once(["toe_front"], {1: ARM, 2: ALIGN, 3: ROD}, [(1, 2)])
    assert found == Once(((3, 2),), (), ())


def test_one_that_comes_before_the_work_does_not_count():
    found = measure_once(["toe_front"], {1: ALIGN, 2: ARM}, [(1, 2)])
    assert found == Once((), ("toe_front",), (2,))


def test_of_two_that_measure_the_later_written_one_takes_it():
    found = measure_once(["toe_front"], {1: ALIGN, 2: ALIGN, 3: ARM}, [])
    assert found == Once(((1, 2), (3, 2)), (), ())


def test_no_link_closes_a_circle():
    camber = OpenJob(("camber_front",), ("camber",))
    toe = OpenJob(("jam_nut",), ("toe_front",))
    found = measure_once(["camber", "toe_front"], {1: toe, 2: camber}, [(1, 2)])
    assert found == Once((), ("toe_front",), (2,))


def test_what_the_rest_rests_on_is_measured_before_it():
    weigh = OpenJob((), ("corner_weights",))
    found = measure_once(["corner_weights", "toe_front"], {1: OpenJob(("mass_moved",)), 2: weigh}, [])
    assert found == Once(((1, 2),), ("toe_front",), (2,))


def test_nothing_needed_asks_for_nothing():
    assert measure_once([], {1: ARM}, []) == Once()


def test_an_unknown_reading_is_refused():
    with pytest.raises(ValueError, match="not a known reading"):
        measure_once(["polish"], {}, [])
