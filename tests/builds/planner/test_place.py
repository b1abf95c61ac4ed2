"""The rules of the contract, one small problem each."""

import pytest

from builds.planner.problem import Link, Station
from builds.planner.search import plan
from tests.builds.planner.data import FLEETS, ODDS, SETS, fleet, instances, psplib
from tests.builds.planner.judge import breaches, worth
from tests.builds.planner.makers import job, person, planned, rows, spans

EVENINGS = ((0, 4), (10, 14), (20, 24), (30, 34))


@pytest.mark.parametrize("path", [*FLEETS, *ODDS], ids=lambda path: path.stem)
def test_the_made_fleets_are_planned_without_a_fault(path):
    made = fleet(path)
    answer = plan(made)
    assert not breaches(made, answer)
    assert answer.score == worth(made, answer)


@pytest.mark.parametrize("name", SETS)
def test_published_instances_are_planned_whole_and_never_beat_the_best_known(name):
    for path, best in instances(name):
        made = psplib(path)
        answer = plan(made)
        assert not breaches(made, answer)
        assert not answer.unplaced
        assert answer.score[0] >= best


def test_work_stops_at_the_end_of_a_window_and_goes_on_in_the_next():
    answer = planned(job("weld", 6), people=(person("ines", windows=EVENINGS),))
    assert spans(answer) == {"weld": (0, 12)}


def test_work_that_may_not_be_split_waits_for_a_window_long_enough():
    people = (person("ines", windows=((0, 3), (10, 14))),)
    assert spans(planned(job("align", 4, splits=False), people=people)) == {"align": (10, 14)}


def test_a_split_job_keeps_its_people_in_the_hours_its_station_is_closed():
    noisy = Station("bench", 1, ((0, 2), (6, 8)))
    made = (
        job("grind", 4, uses={"bench": 1}, rank="safety"),
        job("label", 1, rank="wanted"),
    )
    assert spans(planned(*made, stations=(noisy,))) == {"grind": (0, 8), "label": (8, 9)}


def test_a_job_wants_people_stations_and_its_own_hours_at_once():
    answer = planned(
        job("paint", 2, windows=((3, 9),), uses={"bay": 1}),
        people=(person("ines", windows=((0, 6), (8, 20))),),
        stations=(Station("bay", 1, ((5, 30),)),),
    )
    assert spans(answer) == {"paint": (5, 9)}


def test_one_of_the_hands_has_the_skill():
    people = (person("ines", windows=((0, 9),)), person("tove", "weld", windows=((4, 20),)))
    answer = planned(job("weld", 2, hands=2, skill="weld"), job("fit", 2), people=people)
    assert rows(answer)["weld"].people == ("ines", "tove")
    assert rows(answer)["weld"].start == 4


def test_the_only_welder_is_left_free_when_another_would_do():
    people = (person("tove", "weld"), person("ines"))
    made = (job("sweep", 3, rank="safety"), job("weld", 3, skill="weld"))
    answer = planned(*made, people=people)
    assert rows(answer)["sweep"].people == ("ines",)
    assert spans(answer) == {"sweep": (0, 3), "weld": (0, 3)}


def test_a_station_takes_as_many_as_it_has_room_for():
    made = [job(f"j{k}", 2, hands=0, uses={"yard": units}) for k, units in enumerate((2, 1, 2))]
    answer = planned(*made, stations=(Station("yard", 3),))
    assert spans(answer) == {"j0": (0, 2), "j1": (0, 2), "j2": (2, 4)}


def test_a_cure_runs_through_the_night():
    answer = planned(
        job("prime", 4),
        job("coat", 2),
        people=(person("ines", windows=EVENINGS),),
        links=(Link("prime", "coat", 7),),
    )
    assert spans(answer)["coat"] == (11, 13)


def test_a_cure_given_as_a_table_is_read_at_the_end_of_the_job_before():
    ready = tuple(max(k + 2, 15) for k in range(41))
    answer = planned(job("prime"), job("coat"), links=(Link("prime", "coat", 2, ready),))
    assert spans(answer) == {"prime": (0, 2), "coat": (15, 17)}


def test_a_job_without_work_takes_no_time_and_no_one_s_hands():
    made = (job("weld", 3), job("signed", 0), job("fit", 2))
    links = (Link("weld", "signed"), Link("signed", "fit"))
    assert spans(planned(*made, links=links))["signed"] == (3, 3)


def test_a_pinned_job_takes_whoever_lets_it_keep_its_start():
    people = (
        person("ada", windows=((1, 2), (3, 4))),
        person("ines", "fit", windows=((1, 2), (3, 4))),
        person("tove", windows=((3, 4),)),
    )
    made = (job("gate", 1, hands=2, pinned=1), job("fit", 1, skill="fit"))
    assert spans(planned(*made, people=people)) == {"gate": (1, 2), "fit": (3, 4)}


def test_a_pinned_job_starts_where_it_is_pinned_and_others_go_around_it():
    made = (job("gate", 2, pinned=3, rank="wanted"), job("weld", 5, rank="safety"))
    assert spans(planned(*made)) == {"gate": (3, 5), "weld": (5, 10)}


def test_what_a_pinned_job_waits_for_goes_first():
    made = (job("tow", 2, pinned=4), job("load", 3, rank="wanted"), job("weld", 3, rank="safety"))
    answer = planned(*made, links=(Link("load", "tow"),))
    assert spans(answer) == {"load": (0, 3), "tow": (4, 6), "weld": (6, 9)}


def test_a_job_in_hand_keeps_its_people_and_goes_first():
    people = (person("ines"), person("tove"))
    made = (
        job("weld", 4, rank="safety"),
        job("wash", 3, rank="wanted", started=True, crew=("tove",)),
    )
    answer = planned(*made, people=people)
    assert rows(answer)["wash"].people == ("tove",)
    assert spans(answer) == {"wash": (0, 3), "weld": (0, 4)}


def test_urgency_is_inherited_from_what_waits():
    made = (job("tidy", 2), job("fetch", 2, rank="wanted"), job("brakes", 2, rank="safety"))
    answer = planned(*made, links=(Link("fetch", "brakes"),))
    assert spans(answer) == {"fetch": (0, 2), "brakes": (2, 4), "tidy": (4, 6)}


def test_safety_goes_first_when_either_would_do():
    made = (job("labels", 2, rank="wanted", due=10), job("brakes", 2, rank="safety", due=30))
    assert spans(planned(*made)) == {"brakes": (0, 2), "labels": (2, 4)}
