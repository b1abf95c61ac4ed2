"""Proofs that a car cannot make it: the numbers in them, and none where there is a plan."""

from builds.planner.problem import Link, Person
from builds.planner.search import plan
from builds.remedies.engine.proof import proofs, soonest
from builds.remedies.engine.standing import standing
from tests.builds.remedies.engine.garages import DAY, evenings, garage, job


def told(problem, vehicle="heron"):
    return [(proof.kind, proof.sentence) for proof in proofs(problem, vehicle)]


def test_a_chain_with_its_cure_is_too_long_whoever_is_free():
    problem = garage(
        job("weld", 4, rank="safety"),
        job("prime", 4),
        job("refit", 4, rank="safety"),
        people=(Person("ines", (), None), Person("tove", (), None)),
        links=(Link("weld", "prime"), Link("prime", "refit", 190, why="the primer cures")),
    )
    assert told(problem) == [
        (
            "chain",
            "“Weld”, “Prime” (the primer cures) and “Refit” take until slot 202 even if nobody had "
            "anything else to do; Heron leaves slot 192.",
        )
    ]
    assert proofs(problem, "heron")[0].impossible


def test_what_is_done_overnight_is_late_for_the_morning_and_not_for_leaving():
    late = garage(job("bleed", 4, windows=((250, 280),), due=252))
    (proof,) = proofs(late, "heron", leaves=2 * DAY)
    assert proof.sentence.endswith("; Heron must run slot 252.")
    (proof,) = proofs(late, "heron", leaves=252)
    assert proof.sentence.endswith("; Heron leaves slot 252.")


def test_the_soonest_end_knows_hours_cures_and_work_that_is_not_split():
    cure = tuple(max(end, 100) for end in range(7 * DAY + 1))
    problem = garage(
        job("weld", 20),
        job("prime", 14, splits=False),
        links=(Link("weld", "prime", ready=cure),),
    )
    ends, behind = soonest(problem)
    assert ends == [DAY + 78, 2 * DAY + 86]  # 14 slots and 6; then no evening is whole before
    assert behind == [None, 0]


def test_what_the_chain_begins_with_says_why_it_does_not_begin_sooner():
    problem = garage(job("fit", 8, earliest=190, waits_for="the part fan, expected Thu 4 Mar"))
    (proof,) = proofs(problem, "heron")
    assert proof.sentence.endswith("“Fit” waits for the part fan, expected Thu 4 Mar.")
    (proof,) = proofs(garage(job("fit", 8, earliest=190)), "heron")
    assert proof.sentence.endswith("“Fit” may not start before slot 190.")


def test_work_that_only_some_can_do_is_more_than_they_are_in_for():
    people = (
        Person("ines", ("weld",), evenings(*range(7)), name="Ines"),
        Person("tove", (), None, name="Tove"),
    )
    jobs = [job(f"weld {k}", 10, skill="weld", rank="safety") for k in range(3)]
    assert told(garage(*jobs, people=people)) == [
        (
            "hours",
            "7 h 30 of safety and needed work that asks for the skill “weld” is to be done, and Ines has 7 h "
            "until slot 192.",
        )
    ]


def test_nobody_can():
    problem = garage(job("paint", 2, skill="paint", due=5 * DAY))
    said = [sentence for _, sentence in told(problem)]
    assert said[-1] == (
        "30 min of safety and needed work that asks for the skill “paint” is to be done, and nobody has that skill."
    )


def test_two_hands_at_once_count_twice():
    people = tuple(Person(name, (), evenings(0, 1)) for name in ("ines", "tove"))
    jobs = (job("lift", 20, hands=2), job("fit", 20))
    assert told(garage(*jobs, people=people)) == [
        (
            "hours",
            "15 h of safety and needed work is to be done, and ines and tove together have 14 h until slot 192.",
        )
    ]


def test_two_cars_ask_for_too_much_together_and_neither_alone():
    jobs = (job("fit", 20), job("trim", 20, vehicle="badger"))
    ((kind, sentence),) = told(garage(*jobs))
    assert kind == "shared"
    assert sentence == (
        "10 h of safety and needed work on Badger and Heron is to be done, and Ines has 7 h until slot 192."
    )
    assert not proofs(garage(*jobs), "heron")[0].impossible


def test_wanted_work_and_cars_without_a_date_prove_nothing():
    assert told(garage(job("polish", 80, rank="wanted"))) == []
    assert told(garage(job("fit", 80, due=None))) == []


def test_nothing_is_proved_of_a_car_that_makes_it():
    problem = garage(job("fit", 20), job("trim", 8))
    assert standing(problem, plan(problem), "heron").makes_it
    assert told(problem) == []


def test_people_who_never_meet_are_told_instead_of_a_length():
    people = (Person("ines", (), evenings(0, 2, 4)), Person("tove", (), evenings(1, 3, 5)))
    problem = garage(job("weld", 4), job("lift", 2, hands=2), people=people, links=(Link("weld", "lift"),))
    (proof, *_) = proofs(problem, "heron")
    assert proof.sentence == "“Lift” has no place. ines and tove are never in at the same time: agree on hours."
    assert proof.impossible


def test_a_long_chain_is_told_by_its_first_and_last_job():
    chain = [job(f"job {k}", 40) for k in range(6)]
    links = tuple(Link(f"job {k}", f"job {k + 1}") for k in range(5))
    people = (Person("ines", (), None),)
    said = proofs(garage(*chain, people=people, links=links), "heron")[0].sentence
    assert said.startswith("“Job 0” to “Job 5”, 6 jobs one after the other, take until slot 240 ")
    cures = (*links[:2], Link("job 2", "job 3", 8, why="the primer cures"), *links[3:])
    said = proofs(garage(*chain, people=people, links=cures), "heron")[0].sentence
    assert said.startswith("“Job 0” to “Job 5”, 6 jobs with the waits between them, take until slot 248 ")
    said = proofs(garage(*chain[:5], people=people, links=links[:4]), "heron")[0].sentence
    assert said.startswith("“Job 0”, “Job 1”, “Job 2”, “Job 3” and “Job 4” take until slot 200 ")


def test_more_people_than_a_sentence_holds_are_counted():
    people = tuple(Person(f"p{k}", (), ((0, 2),), name=f"P{k}") for k in range(6))
    said = told(garage(*(job(f"fit {k}", 2) for k in range(7)), people=people))
    assert said[-1][1].endswith(" is to be done, and all 6 who could do it together have 3 h until slot 192.")
    said = told(garage(*(job(f"fit {k}", 2) for k in range(6)), people=people[:5]))
    assert "and P0, P1, P2, P3 and P4 together have 2 h 30 until slot 192." in said[-1][1]
