"""A plan explains itself: what each job waited for, the way back to now, how far it may slip."""

from dataclasses import replace

from builds.planner.explain import binding_chain, reasons
from builds.planner.problem import Hold, Link, Person, Station
from builds.planner.search import plan
from tests.builds.planner.makers import job, person, problem


def told(made, name):
    reason = reasons(made, plan(made))[name]
    return reason.kind, reason.refs, reason.sentence


def test_a_job_that_waits_for_nothing_says_so():
    assert told(problem(job("weld")), "weld") == ("now", (), "“weld” waits for nothing.")


def test_a_job_waits_for_the_job_before_and_its_cure():
    made = problem(
        job("prime", title="Prime the arm"),
        job("coat", title="Topcoat the arm"),
        links=(Link("prime", "coat", 8, why="primer cure"),),
    )
    assert told(made, "coat") == (
        "link",
        ("prime",),
        "“Topcoat the arm” waits for “Prime the arm”, done slot 2, then 2 h to slot 10: primer cure.",
    )


def test_a_job_waits_for_a_person_on_another():
    made = problem(job("weld", rank="safety"), job("wash", title="Wash"))
    assert told(made, "wash") == (
        "person",
        ("ines", "weld"),
        "ines does “weld” first, planned from slot 0 until slot 2, so “Wash” waits.",
    )
    begun = problem(job("weld", started=True), job("wash", title="Wash"))
    assert told(begun, "wash")[2] == "ines is on “weld” until slot 2, so “Wash” waits."


def test_a_job_waits_until_somebody_with_the_skill_is_in():
    people = (person("tove"), Person("ines", ("weld",), ((9, 20),), "Ines"))
    assert told(problem(job("weld", skill="weld"), people=people), "weld") == (
        "away",
        ("ines",),
        "Nobody with the skill “weld” is in before slot 9, so “weld” waits.",
    )


def test_a_job_waits_until_its_people_are_in():
    made = problem(job("wash"), people=(Person("ines", (), ((9, 20),), "Ines"),))
    assert told(made, "wash")[::2] == ("away", "Ines is not in before slot 9, so “wash” waits.")


def test_a_job_in_hand_does_not_wait_for_its_people():
    made = problem(job("wash", started=True), people=(Person("ines", (), ((9, 20),), "Ines"),))
    said = "“wash” is in hand; the plan goes on with it slot 9, when Ines is in."
    assert told(made, "wash")[::2] == ("away", said)


def test_a_job_waits_for_a_station_in_use_and_for_one_that_is_closed():
    made = problem(job("a", hands=0, uses={"bay": 1}), job("b", hands=0, uses={"bay": 1}))
    assert told(made, "b") == (
        "station",
        ("bay", "a"),
        "bay is taken by Heron for “a” until slot 2, so “b” waits.",
    )
    made = problem(job("a", uses={"bay": 1}), stations=(Station("bay", 1, ((5, 9),), "The bay"),))
    assert told(made, "a") == ("closed", ("bay",), "The bay is closed until slot 5, so “a” waits.")


def test_a_job_waits_for_a_car_that_cannot_be_moved():
    made = problem(
        job("strip", 1, uses={"bay": 1}, rank="safety"),
        job("weld", 1, rank="safety"),
        job("wash", 2, hands=0, vehicle="moth", uses={"bay": 1}),
        links=(Link("strip", "weld", 6),),
        holds=(Hold("heron", "bay", "strip", "weld"),),
    )
    assert told(made, "wash") == (
        "hold",
        ("heron", "bay", "weld"),
        "Heron stands stripped in bay and cannot be moved until slot 8, so “wash” waits.",
    )


def stripped(*more, **keys):
    return problem(
        job("strip", 1, hands=0, uses={"bay": 1}, rank="safety"),
        job("refit", 1, hands=0, uses={"bay": 1}, rank="safety"),
        *more,
        links=(Link("strip", "refit", 6),),
        holds=(Hold("heron", "bay", "strip", "refit"),),
        stations=(Station("bay", 1, stands=True, name="the bay"), Station("floor", 1, stands=True)),
        **keys,
    )


def test_a_job_waits_for_its_car_that_stands_stripped_elsewhere():
    assert told(stripped(job("weigh", 1, uses={"floor": 1})), "weigh") == (
        "hold",
        ("heron", "bay", "refit"),
        "Heron stands stripped in the bay and cannot be moved until slot 8, so “weigh” waits.",
    )


def test_a_job_waits_for_its_car_that_is_elsewhere_for_another():
    made = (job("weigh", 3, uses={"floor": 1}, rank="safety"), job("grind", 1, hands=0, uses={"bay": 1}))
    assert told(problem(*made, stations=stripped().stations), "grind") == (
        "elsewhere",
        ("heron", "floor", "weigh"),
        "Heron stands at floor for “weigh” until slot 3, so “grind” waits.",
    )


def test_a_job_waits_only_for_those_who_leave_no_room_for_it():
    made = problem(
        job("a", 9, hands=0, uses={"yard": 1}, rank="safety"),
        job("b", 4, hands=0, uses={"yard": 2}, rank="safety", vehicle="moth"),
        job("c", 1, hands=0, uses={"yard": 2}),
        stations=(Station("yard", 3),),
    )
    assert told(made, "c")[1:] == (("yard", "b"), "yard is taken by Moth for “b” until slot 4, so “c” waits.")


def test_where_all_hands_are_busy_it_waits_for_its_own_and_not_for_room_that_there_would_be():
    made = problem(
        job("weld", rank="safety", uses={"shop": 1}, crew=("ines",)),
        job("grind", rank="safety", uses={"shop": 1}, crew=("tove",)),
        job("wash", title="Wash", uses={"shop": 1}, crew=("ines",)),
        people=(person("ines"), person("tove")),
        stations=(Station("shop", 2, None, "The shop"),),
    )
    assert told(made, "wash")[:2] == ("person", ("ines", "weld"))
    full = replace(made, stations=(Station("shop", 1, None, "The shop"),))
    assert told(full, "wash")[0] == "station"


def test_a_job_waits_its_turn_where_a_held_car_leaves_room_for_one():
    made = stripped(
        job("wash", 4, hands=0, uses={"bay": 1}, vehicle="moth", rank="safety"),
        job("polish", 2, hands=0, uses={"bay": 1}, vehicle="moth"),
    )
    roomy = replace(made, stations=(Station("bay", 2, name="the bay"),))
    assert told(roomy, "polish")[2] == "the bay is taken by Moth for “wash” until slot 4, so “polish” waits."


def test_a_job_waits_for_its_own_hours_its_earliest_start_and_its_pin():
    assert told(problem(job("paint", windows=((6, 9),))), "paint")[0] == "windows"
    assert told(problem(job("fit", earliest=4)), "fit") == (
        "earliest",
        (),
        "“fit” may not start before slot 4.",
    )
    assert told(problem(job("tow", pinned=4)), "tow")[2] == "“tow” is pinned to slot 4."


def test_a_job_waits_for_a_part_even_when_it_comes_between_two_sessions():
    waits = job("fit", earliest=4, waits_for="the part hub, expected Thu 4 Mar")
    said = "“fit” waits for the part hub, expected Thu 4 Mar"
    assert told(problem(waits), "fit") == ("earliest", (), f"{said}.")
    evenings = problem(waits, people=(person("ines", windows=((0, 3), (6, 12))),))
    assert told(evenings, "fit")[2] == f"{said}; the first session after that begins slot 6."
    busy = problem(job("weld", 5, rank="safety"), waits, people=(person("ines"),))
    assert told(busy, "fit")[0] == "person"


def test_a_session_missed_for_a_part_of_the_job_before_leads_back_to_the_part():
    evenings = (person("ines", windows=((0, 3), (6, 8), (20, 24))),)
    fit = job("fit", 2, earliest=4, waits_for="the part hose, expected Tue 8 Dec", rank="safety")
    bleed = job("bleed", 2, rank="safety")
    made = problem(fit, bleed, people=evenings, links=(Link("fit", "bleed"),))
    chain = binding_chain(made, plan(made), "bleed")
    assert [reason.kind for reason in chain] == ["away", "earliest"]
    assert chain[0].sentence == (
        "ines is not in before slot 20, so “bleed” waits. “bleed” waits for “fit”, done slot 8."
    )
    assert chain[-1].sentence.startswith("“fit” waits for the part hose, expected Tue 8 Dec")
    # Nobody was in any sooner: then the hours are all that is in the way.
    late = replace(made, people=(person("ines", windows=((20, 24),)), person("tove", "fit")))
    late = replace(late, jobs=(replace(fit, skill="fit"), replace(bleed, crew=("ines",))))
    assert [reason.kind for reason in binding_chain(late, plan(late), "bleed")] == ["away"]


def test_a_job_waits_for_a_session_long_enough():
    people = (person("ines", windows=((0, 2), (6, 12))),)
    assert told(problem(job("align", 4, splits=False), people=people), "align")[2] == (
        "“align” needs 1 h in one go. The first session that long begins slot 6."
    )


def test_the_chain_leads_back_to_now():
    made = problem(
        job("weld", rank="safety"),
        job("prime", rank="safety"),
        job("refit", rank="safety"),
        people=(person("ines", windows=((4, 40),)),),
        links=(Link("weld", "prime"), Link("prime", "refit", 5)),
    )
    chain = binding_chain(made, plan(made), "refit", when=lambda slot: f"<{slot}>")
    assert [reason.kind for reason in chain] == ["link", "link", "away"]
    assert chain[0].sentence == "“refit” waits for “prime”, done <8>, then 1 h 15 to <13>."
    assert chain[-1].sentence == "ines is not in before <4>, so “weld” waits."


def test_the_chain_of_an_unplaced_job_ends_with_the_cause():
    made = problem(job("weld", skill="weld"), job("refit"), links=(Link("weld", "refit"),))
    chain = binding_chain(made, plan(made), "refit")
    assert [reason.refs for reason in chain] == [("refit",), ("weld",)]
    assert (
        chain[-1].sentence
        == "“weld” has no place. Nobody has the skill “weld”: teach somebody, or find somebody who has it."
    )
