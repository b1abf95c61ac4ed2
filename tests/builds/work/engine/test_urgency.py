"""Urgency that runs backwards along the links, and circles spelled out."""

import random
from itertools import pairwise

import pytest

from builds.work.engine.urgency import (
    Urgency,
    cycle_sentence,
    find_cycle,
    inherited,
)


def test_a_job_that_a_safety_job_waits_for_is_as_urgent() -> None:
    jobs = {"paint": "wanted", "arm": "safety", "badge": "wanted"}
    found = inherited(jobs, [("paint", "arm")])
    assert found["paint"] == Urgency("safety", "arm", "arm")
    assert found["arm"] == Urgency("safety")
    assert found["badge"] == Urgency("wanted")


def path(urgencies, job):
    """The jobs from this one to the one whose urgency it carries, both named."""
    steps = [job]
    while (following := urgencies[steps[-1]].next_on_path) is not None:
        steps.append(following)
    return tuple(steps)


def test_urgency_does_not_run_forwards() -> None:
    assert inherited({"arm": "safety", "polish": "wanted"}, [("arm", "polish")])["polish"] == (Urgency("wanted"))


def test_the_nearest_cause_is_named_and_the_way_to_it() -> None:
    jobs = dict.fromkeys("abcd", "wanted") | {"near": "safety", "far": "safety"}
    links = [("a", "b"), ("b", "c"), ("c", "d"), ("d", "far"), ("c", "near")]
    found = inherited(jobs, links)
    assert found["a"].inherited_from == "near"
    assert path(found, "a") == ("a", "b", "c", "near")
    assert found["d"].inherited_from == "far"
    assert path(found, "near") == ("near",)


def test_safety_is_inherited_before_needed_even_when_needed_is_nearer() -> None:
    jobs = {"weld": "wanted", "fan": "needed", "wait": "wanted", "arm": "safety"}
    found = inherited(jobs, [("weld", "fan"), ("weld", "wait"), ("wait", "arm")])
    assert found["weld"] == Urgency("safety", "arm", "wait")


def test_needed_is_inherited_too_and_passes_through_jobs_of_a_lower_rank() -> None:
    jobs = {"order": "wanted", "fit": "wanted", "run": "needed"}
    found = inherited(jobs, [("order", "fit"), ("fit", "run")])
    assert found["order"] == Urgency("needed", "run", "fit")


def test_links_to_jobs_that_are_no_longer_open_pass_nothing_on() -> None:
    assert inherited({"a": "wanted"}, [("a", "gone"), ("gone", "a")])["a"] == Urgency("wanted")


def test_against_a_plain_reachability_search_on_random_links() -> None:
    rng = random.Random(7)
    for _ in range(200):
        size = rng.randint(1, 9)
        jobs = {job: rng.choice(["safety", "needed", "wanted"]) for job in range(size)}
        links = [(rng.randrange(size), rng.randrange(size)) for _ in range(rng.randint(0, 14))]
        found = inherited(jobs, links)
        for job in jobs:
            reach, grew = {job}, True
            while grew:
                more = {after for before, after in links if before in reach} - reach
                reach, grew = reach | more, bool(more)
            best = min((jobs[other] for other in reach), key=["safety", "needed", "wanted"].index)
            assert found[job].rank == best
            way = path(found, job)
            assert jobs[way[-1]] == best
            assert all(step in set(links) for step in pairwise(way))


def test_a_chain_of_five_thousand_jobs_needs_no_recursion() -> None:
    count = 5_000
    jobs = dict.fromkeys(range(count), "wanted") | {count - 1: "safety"}
    chain = [(job, job + 1) for job in range(count - 1)]
    found = inherited(jobs, chain)
    assert found[0].inherited_from == count - 1
    assert len(path(found, 0)) == count
    assert find_cycle(chain) is None
    assert len(find_cycle([*chain, (count - 1, 0)]) or ()) == count


def test_a_circle_is_spelled_out() -> None:
    titles = {"weld": "Weld the arm", "prime": "Prime the arm"}
    cycle = find_cycle([("weld", "prime"), ("prime", "weld")])
    assert cycle is not None
    first, second = (titles[job] for job in cycle)
    assert cycle_sentence(cycle, titles) == f"“{first}” waits for “{second}”, which waits for “{first}”."
    assert cycle_sentence(("weld", "prime"), titles) == (
        "“Weld the arm” waits for “Prime the arm”, which waits for “Weld the arm”."
    )


def test_only_the_jobs_on_the_circle_are_named_each_waiting_for_the_next() -> None:
    links = [("in", "a"), ("a", "b"), ("b", "c"), ("c", "a"), ("c", "out")]
    cycle = find_cycle(links)
    assert cycle is not None
    assert sorted(cycle) == ["a", "b", "c"]
    for job, waited_for in zip(cycle, (*cycle[1:], cycle[0]), strict=True):
        assert (waited_for, job) in links


def test_a_job_that_waits_for_itself() -> None:
    assert find_cycle([("a", "a")]) == ("a",)
    assert cycle_sentence(("a",), {"a": "Bleed"}) == "“Bleed” waits for itself."


def test_a_long_circle_is_shortened() -> None:
    sentence = cycle_sentence(tuple(range(100)), {job: f"Job {job}" for job in range(100)})
    assert "88 more in turn, which waits for “Job 0”." in sentence
    assert len(sentence) < 500


@pytest.mark.parametrize(
    "links",
    [
        [],
        [("a", "b")],
        [("a", "b"), ("a", "c"), ("b", "d"), ("c", "d")],
        [("a", "b"), ("a", "b")],
    ],
)
def test_links_without_a_circle(links: list[tuple[str, str]]) -> None:
    assert find_cycle(links) is None


def test_a_circle_is_found_exactly_when_no_working_order_exists() -> None:
    rng = random.Random(11)
    for _ in range(300):
        size = rng.randint(2, 8)
        links = [(rng.randrange(size), rng.randrange(size)) for _ in range(rng.randint(0, 10))]
        left = set(range(size))
        while free := {job for job in left if not any(a == job and b in left for b, a in links)}:
            left -= free
        cycle = find_cycle(links)
        assert (cycle is None) == (not left)
        if cycle:
            steps = zip(cycle, (*cycle[1:], cycle[0]), strict=True)
            assert all((waited_for, job) in links for job, waited_for in steps)
            assert len(set(cycle)) == len(cycle)


def test_jobs_that_can_be_reached_in_countless_ways_are_looked_at_once() -> None:
    # Sixty diamonds in a row: 2 ** 60 ways from end to end, which no search of the ways survives.
    ladder = [
        link
        for rung in range(60)
        for side in ("left", "right")
        for link in ((rung, (side, rung)), ((side, rung), rung + 1))
    ]
    assert find_cycle(ladder) is None
    assert inherited(dict.fromkeys({job for link in ladder for job in link}, "wanted") | {60: "safety"}, ladder)[
        0
    ] == Urgency("safety", 60, ("left", 0))
