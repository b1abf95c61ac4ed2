"""The hunt: the one thing that works is found, as small as it works; two together where none is."""

from dataclasses import replace

import pytest

from builds.planner.check import faults
from builds.planner.problem import Link, Person
from builds.planner.search import plan
from builds.remedies.engine.changes.defer import Defer, deferrals
from builds.remedies.engine.changes.presence import ExtraSession, Hands
from builds.remedies.engine.changes.room import Room, more_room
from builds.remedies.engine.changes.sooner import Sooner
from builds.remedies.engine.changes.stay_home import StayHome
from builds.remedies.engine.hunt import Hunt
from builds.remedies.engine.judges import ByOdds
from builds.remedies.engine.standing import standing
from tests.builds.remedies.engine.garages import DAY, bay, evenings, garage, job


def suggested(problem, base, car="heron"):
    """What the problem alone suggests."""
    return [*deferrals(problem, base, car), *more_room(problem, base, car)]


def hunt(problem, *changes, car="heron", kind=Hunt, **more):
    base = plan(problem)
    return kind(problem, base, car, [*suggested(problem, base, car), *changes], **more)


def hunted(problem, *changes, car="heron", seconds=10, **more):
    return hunt(problem, *changes, car=car, **more).go_on(seconds=seconds).remedies


def late(problem):
    return not standing(problem, plan(problem), "heron").makes_it


def told(found):
    """What a remedy says, without the time its planning took."""
    return [(remedy.changes, remedy.ready, remedy.misses, remedy.late) for remedy in found]


class Judge(Hunt):
    """A hunt in which the car makes it as soon as these jobs are put off, and not before."""

    needed = {"wax", "polish"}

    def tried(self, changes):
        put_off = {name for change in changes for name in change.puts_off()}
        problem, found, _ = super().tried(changes)
        return problem, found, int(not self.needed <= put_off)


def test_wanted_work_is_put_off_and_no_more_of_it_than_does_it():
    wanted = ("clean", "wax", "sort", "polish", "sweep")
    jobs = [job(name, 2, rank="wanted", vehicle="badger", due=DAY) for name in wanted]
    problem = garage(*jobs, job("fit", 40, due=DAY, earliest=90))
    found = [attempt.remedy for attempt in hunt(problem, kind=Judge).run() if attempt.remedy]
    assert [set(change.jobs) for remedy in found for change in remedy.changes] == [Judge.needed]
    assert found[0].effort == 1.0
    assert found[0].late == ()


def held_up():
    """Heron's 20 slots wait for Badger's work in hand on the same people."""
    return garage(
        job("strip", 12, vehicle="badger", rank="safety", due=DAY, started=True),
        job("fit", 20, rank="needed"),
        people=(Person("ines", (), evenings(0, 1), name="Ines"),),
    )


def test_a_session_is_found_and_cut_to_what_is_used():
    problem = held_up()
    assert late(problem)
    session = ExtraSession("ines", DAY + 40, DAY + 60, 5.0)
    (remedy,) = (row for row in hunted(problem, session) if isinstance(row.changes[0], ExtraSession))
    (change,) = remedy.changes
    assert DAY + 40 <= change.begin < change.end <= DAY + 60
    assert change.hours == (change.end - change.begin) / 4 < 5.0
    assert remedy.effort == change.hours
    assert remedy.ready <= 2 * DAY
    assert change.hours == 1
    assert not faults(remedy.problem, remedy.plan)


def test_exactly_one_of_many_changes_works_and_is_the_only_one_told():
    """One welder, one evening: only another welder helps, not hands, room, or cars at home."""
    problem = garage(
        job("weld", 20, skill="weld", due=DAY, rank="safety"),
        job("trim", 2, vehicle="badger", due=DAY),
        people=(
            Person("ines", ("weld",), evenings(0), name="Ines"),
            Person("tove", (), evenings(0), name="Tove"),
        ),
        stations=(bay(),),
    )
    offers = (
        Hands(None, 72, 86, 3.5),
        ExtraSession("tove", 20, 60, 10.0),
        StayHome("badger", None, 0.1, 1),
        Room("bay"),
        ExtraSession("ines", 20, 60, 10.0),
    )
    found = hunted(problem, *offers)
    assert [[change.person for change in row.changes] for row in found] == [["ines"]]


def test_a_part_sooner_works_where_more_hands_do_not():
    problem = garage(job("fit", 14, earliest=2 * DAY - 20, waits_for="the part fan", splits=False))
    part = Sooner("part", 3.0, (job("fit", 14, earliest=70, splits=False),))
    hands = Hands(None, DAY + 72, DAY + 86, 3.5)
    assert [remedy.changes for remedy in hunted(problem, part, hands)] == [(part,)]


def test_two_together_where_neither_is_enough():
    problem = garage(
        job("fit", 14, earliest=2 * DAY - 20, splits=False, waits_for="the part fan"),
        job("trim", 30, rank="safety"),
    )
    part = Sooner("part", 3.0, (job("fit", 14, earliest=72, splits=False),))
    session = ExtraSession("ines", 10, 60, 12.5)
    assert hunted(problem, part) == hunted(problem, session) == ()
    (both,) = hunted(problem, part, session)
    assert {change.kind for change in both.changes} == {"part", "session"}
    assert both.effort < 3.0 + 12.5


def test_three_together_where_no_two_are_enough():
    problem = garage(job("fit", 40, due=DAY), people=(Person("ines", (), evenings(0)),))
    offers = [ExtraSession("ines", 10 * k, 10 * k + 10, 2.5) for k in (1, 3, 5)]
    (remedy,) = hunted(problem, *offers)
    assert len(remedy.changes) == 3


def test_nothing_helps_and_nothing_is_told():
    problem = garage(job("fit", 14, earliest=2 * DAY, rank="safety"))
    assert hunted(problem, ExtraSession("ines", 0, 60, 15.0)) == ()


def test_it_says_what_the_others_pay():
    problem = garage(
        job("fit", 20),
        job("trim", 12, vehicle="badger"),
        people=(Person("ines", (), evenings(0, 1), name="Ines"),),
    )
    base = plan(problem)
    late = "badger" if standing(problem, base, "heron").makes_it else "heron"
    other = "heron" if late == "badger" else "badger"
    home = StayHome(other, None, 0.1, 1)
    (remedy,) = hunted(problem, home, car=late)
    assert remedy.changes == (home,)
    assert remedy.misses == ()


def test_a_car_in_time_needs_nothing_but_the_plan():
    problem = garage(job("fit", 4))
    (remedy,) = hunted(problem, ExtraSession("ines", 0, 60, 15.0))
    assert (remedy.changes, remedy.effort) == ((), 0)


def test_the_least_effort_comes_first():
    offers = (Hands(None, 72, 96, 6.0), ExtraSession("ines", DAY + 40, DAY + 60, 5.0))
    efforts = [row.effort for row in hunted(held_up(), *offers)]
    assert len(efforts) == 2
    assert efforts == sorted(efforts)


def test_the_same_seed_gives_the_same_and_it_stops_when_the_time_is_over():
    offers = [ExtraSession("ines", DAY + k, DAY + 60, (60 - k) / 4) for k in range(20, 40, 4)]
    first = hunted(held_up(), *offers)
    assert told(first) == told(hunted(held_up(), *offers, seed=1))
    trying = hunt(held_up(), *offers).go_on(seconds=0)
    assert (trying.done, len(trying.gaps), trying.over) == (1, 1, False)


@pytest.mark.parametrize("after", [1, 2, 4, 9])
def test_taken_up_again_it_goes_on_as_if_it_had_not_stopped(after):
    problem = garage(job("fit", 40, due=DAY), people=(Person("ines", (), evenings(0)),))
    offers = [ExtraSession("ines", 10 * k, 10 * k + 10, 2.5) for k in (1, 3, 5)]
    car_hunt = hunt(problem, *offers)
    whole = list(car_hunt.run())
    again = list(car_hunt.run([attempt.gap for attempt in whole[:after]]))
    assert [(row.changes, row.gap, row.done, row.of) for row in again] == [
        (row.changes, row.gap, row.done, row.of) for row in whole
    ]
    assert [row.remedy and told([row.remedy]) for row in again[after:]] == [
        row.remedy and told([row.remedy]) for row in whole[after:]
    ]
    assert not any(row.remedy for row in again[:after])


def test_a_while_of_trying_goes_on_from_the_gaps_of_the_one_before():
    problem = garage(job("fit", 40, due=DAY), people=(Person("ines", (), evenings(0)),))
    offers = [ExtraSession("ines", 10 * k, 10 * k + 10, 2.5) for k in (1, 3, 5)]
    car_hunt = hunt(problem, *offers)
    whole = car_hunt.go_on(seconds=10)
    assert whole.over and whole.remedies
    found, trying = [], car_hunt.go_on(seconds=0)
    while not trying.over:
        found += trying.remedies
        trying = car_hunt.go_on(trying.gaps, seconds=0)
    assert told(found) == told(whole.remedies)
    assert trying.gaps == whole.gaps
    assert (trying.remedies, trying.done, trying.of) == ((), whole.done, whole.of)


def test_it_says_how_many_went_together_and_what_came_nearest():
    problem = garage(job("fit", 40, due=DAY))
    offers = [ExtraSession("ines", 10 * k, 10 * k + 6, 1.5) for k in (1, 3)]
    trying = hunt(problem, *offers).go_on(seconds=10)
    assert (trying.remedies, trying.together, trying.over) == ((), 2, True)
    assert set(trying.nearest.changes) == set(offers)
    assert trying.done == 3
    alone = hunt(problem, offers[0]).go_on(seconds=10)
    assert (alone.together, alone.nearest.changes) == (1, (offers[0],))


def test_nothing_is_nearest_where_nothing_helps_and_where_something_does():
    problem = garage(job("fit", 14, earliest=2 * DAY, rank="safety"))
    assert hunt(problem, ExtraSession("ines", 0, 60, 15.0)).go_on(seconds=10).nearest is None
    assert hunt(held_up(), ExtraSession("ines", DAY + 40, DAY + 60, 5.0)).go_on(seconds=10).nearest is None


class TestByOdds:
    """Four hours of work that may take seven, in one evening of three and a half and one after it is due."""

    problem = garage(job("fit", 12), people=(Person("ines", (), evenings(0)),))
    figures = {"fit": (150.0, 180.0, 420.0)}

    def judge(self):
        return ByOdds(self.problem, "heron", self.figures, 0.0)

    def tried(self, *changes):
        return hunt(self.problem, *changes, judge=self.judge()).go_on(seconds=10)

    def test_a_session_that_the_plan_does_without_does_it(self):
        session = ExtraSession("ines", DAY + 20, DAY + 60, 10.0)
        now = self.judge().now
        assert standing(self.problem, plan(self.problem), "heron").makes_it
        assert 20 < now < 80
        (remedy,) = self.tried(session).remedies
        assert (remedy.changes, remedy.in_time) == ((session,), 100)

    def test_what_changes_nothing_is_none(self):
        trying = self.tried(ExtraSession("ines", 4 * DAY, 4 * DAY + 8, 2.0))
        assert (trying.remedies, trying.nearest) == ((), None)
        assert trying.gaps == (80 - self.judge().now,)

    def test_what_makes_it_likelier_and_no_more_comes_nearest(self):
        little = ExtraSession("ines", DAY + 20, DAY + 22, 0.5)
        trying = self.tried(little)
        assert trying.remedies == ()
        assert self.judge().now < trying.nearest.in_time < 80

    @pytest.mark.parametrize(("asked", "runs"), [(0, 20), (19, 20), (20, 20), (100, 100), (101, 100)])
    def test_it_asks_for_as_many_runs_as_there_is_time_for(self, asked, runs):
        judge = ByOdds(self.problem, "heron", self.figures, 0.0, asked)
        assert (judge.runs, judge.need) == (runs, max(0.8 * runs, judge.now + 1))

    def test_enough_is_never_what_there_is_already(self):
        sure = ByOdds(self.problem, "heron", {"fit": (150.0, 160.0, 190.0)}, 0.0)
        assert sure.now == 100
        assert sure.gap(self.problem, plan(self.problem)) == 1


class TestCandidates:
    def made(self, *more, links=()):
        problem = garage(job("fit", 60), *more, links=links, stations=(bay(),))
        return suggested(problem, plan(problem))

    def deferred(self, *more, links=()):
        found = self.made(*more, links=links)
        return {name for change in found if isinstance(change, Defer) for name in change.jobs}

    def test_only_wanted_work_that_nothing_needed_waits_for_is_put_off(self):
        polish = job("polish", rank="wanted", due=7 * DAY)
        assert self.deferred(polish, job("brakes", rank="safety")) <= {"polish"}
        assert self.deferred(polish, links=(Link("polish", "fit"),)) == set()

    @pytest.mark.parametrize("more", [{"started": True}, {"pinned": 72}])
    def test_work_in_hand_or_pinned_stays(self, more):
        assert self.deferred(replace(job("polish", rank="wanted"), **more)) == set()

    def test_a_shared_station_gets_room_and_one_of_its_own_does_not(self):
        fit = job("lift", uses={"bay": 1})
        assert Room("bay") not in self.made(fit)
        assert Room("bay") in self.made(fit, job("trim", vehicle="badger", uses={"bay": 1}))

    def test_a_car_without_a_date_has_none(self):
        users = [job(name, due=None, uses={"bay": 1}) for name in ("fit", "lift")]
        problem = garage(*users, job("polish", rank="wanted"), stations=(bay(),))
        assert suggested(problem, plan(problem)) == []
