"""Which readings an open job takes after all the work that disturbs them, and which are left over."""

import pytest

from builds.readings.engine.order_of_work import CarJob, order_of_work, untaken

ARM = CarJob(("steering_arm",))
ROD = CarJob(("jam_nut",))
ALIGN = CarJob(("jam_nut",), ("toe_front",))


def left(need, jobs, links=()):
    return untaken(need, jobs, [*links, *order_of_work(jobs, links)])


def test_without_a_job_that_measures_all_of_it_is_left_over():
    assert left(["toe_front"], {1: ARM, 2: ROD}) == ("toe_front",)


def test_only_the_last_of_a_chain_comes_before_what_measures():
    jobs = {1: ARM, 2: ROD, 3: CarJob((), ("toe_front",))}
    assert tuple(order_of_work(jobs, [(1, 9), (9, 2)])) == ((2, 3),)


def test_a_job_that_measures_is_put_after_the_work():
    jobs = {1: ARM, 2: ALIGN, 3: ROD}
    assert tuple(order_of_work(jobs, [(1, 2)])) == ((3, 2),)
    assert left(["toe_front"], jobs, [(1, 2)]) == ()


def test_one_that_comes_before_the_work_does_not_count():
    assert left(["toe_front"], {1: ALIGN, 2: ARM}, [(1, 2)]) == ("toe_front",)


def test_of_two_that_measure_one_is_enough():
    jobs = {1: ALIGN, 2: ALIGN, 3: ARM}
    assert tuple(order_of_work(jobs)) == ((3, 1), (3, 2))
    assert left(["toe_front"], jobs) == ()


def test_no_link_closes_a_circle():
    camber, toe = CarJob(("camber_front",), ("camber",)), ALIGN
    assert left(["camber", "toe_front"], {1: toe, 2: camber}, [(1, 2)]) == ("toe_front",)


def test_what_the_rest_rests_on_is_measured_before_it():
    jobs = {1: CarJob(("mass_moved",)), 2: CarJob((), ("corner_weights",)), 3: CarJob((), ("toe_front",))}
    assert left(["corner_weights", "toe_front"], {1: jobs[1], 2: jobs[2]}) == ("toe_front",)
    assert tuple(order_of_work(jobs)) == ((1, 2), (2, 3))


def test_what_somebody_cut_loose_from_the_work_may_come_before_it_and_does_not_count():
    jobs = {1: CarJob(("spring_change",)), 2: CarJob((), ("corner_weights",))}
    cut = [(1, 2)]
    assert order_of_work(jobs, cut=cut) == {}
    assert untaken(["corner_weights"], jobs, [], cut) == ("corner_weights",)
    assert untaken(["corner_weights"], jobs, []) == ()
    # Cut, and all the same after it by another way: it counts.
    assert untaken(["corner_weights"], {**jobs, 3: CarJob()}, [(1, 3), (3, 2)], cut) == ()


def test_nothing_needed_asks_for_nothing():
    assert left([], {1: ARM}) == ()


def test_an_unknown_reading_is_refused():
    with pytest.raises(ValueError, match="not a known reading"):
        untaken(["polish"], {}, [])
