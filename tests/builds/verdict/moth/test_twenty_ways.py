"""Ways by which somebody who had read the rules alone tried to bring a car to "Fit to run"; one car that was fit."""

import uuid
from contextlib import nullcontext
from datetime import timedelta

import pytest

from builds.gear.actions.life import set_life
from builds.joints import actions as joints
from builds.needs.actions import needs
from builds.readings.actions import readings
from builds.readings.models.reading import Reading
from builds.scrutineering.actions import check_lists, runs
from builds.shelf.actions import shelf
from builds.steps.actions import findings, hold_points, jobs, steps
from builds.verdict.facts.verdict import verdict_of
from garage.actions.refused import Refused
from parts.actions import stock
from parts.actions.places import car_place
from tests.builds.gear.gear_kit import piece
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import KINDS, tick_all
from tests.factories import NOW, EntryFactory, EventFactory, HoldPointFactory, JobFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
LATER = NOW + 9 * HOUR


@pytest.fixture
def rod(cast, car):
    """A tie rod that sits on the car, from long ago."""
    part = PartFactory(garage=cast.garage, name="Tie rod end", systems=["steering"], single=True)
    ends, early = {"quantity": 1, "by": cast.owner}, NOW - timedelta(days=20)
    place = PlaceFactory(garage=cast.garage)
    shelf.carry_out(part, "receive", at=early, target=place, **ends)
    shelf.carry_out(part, "fit", at=early, source=place, car=car, all_along=True, **ends)
    return part


def written(car, cast, title="Work on it", **more):
    return jobs.add(car, by=cast.helper, at=NOW, title=title, work=(30, 60, 90), **{"systems": ["steering"], **more})


def put_right(cast, car):
    """Everything measured and ticked again."""
    for kind in KINDS:
        take(car, kind, cast.owner, at=LATER - HOUR)
    tick_all(cast, LATER - HOUR)


def why_not(car):
    verdict = verdict_of(car, LATER)
    assert verdict.state != "fit", verdict.sentence
    return [reason.sentence for reason in verdict.reasons]


class TestParts:
    def test_1_pulled_for_the_job_and_left_on_the_bench(self, cast, car):
        part, place = PartFactory(garage=cast.garage, name="New rod end"), PlaceFactory(garage=cast.garage)
        shelf.carry_out(part, "receive", quantity=1, target=place, by=cast.owner, at=NOW)
        job = written(car, cast, kinds=["joint_opened"])
        needs.add(job, at=NOW, what="rod end", part=part)
        move = shelf.carry_out(part, "pull", quantity=1, source=place, job=job, by=cast.helper, at=NOW)
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        steps.sign(job, by=cast.owner, at=NOW + 2 * HOUR)
        put_right(cast, car)
        assert why_not(car) == ["“Work on it” is done, but never fitted: rod end."]
        shelf.carry_out(part, "fit", quantity=1, source=move.target, car=car, job=job, by=cast.helper, at=NOW + HOUR)
        assert verdict_of(car, LATER).state == "fit"

    @pytest.mark.parametrize(("pulled", "straight", "from_bench", "left"),
                             [(10, 0, 4, False), (4, 0, 3, True), (2, 2, 0, True), (2, 4, 0, False)])  # fmt: skip
    def test_of_what_was_brought_as_many_go_on_as_were_asked_for(self, cast, car, pulled, straight, from_bench, left):
        part, place = PartFactory(garage=cast.garage, name="M8 bolt"), PlaceFactory(garage=cast.garage)
        shelf.carry_out(part, "receive", quantity=20, target=place, by=cast.owner, at=NOW)
        job = written(car, cast, kinds=["joint_opened"])
        needs.add(job, at=NOW, what="bolt", part=part, quantity=4)
        move = shelf.carry_out(part, "pull", quantity=pulled, source=place, job=job, by=cast.helper, at=NOW)
        on = {"car": car, "job": job, "by": cast.helper, "at": NOW}
        for source, many in ((place, straight), (move.target, from_bench)):
            if many:
                shelf.carry_out(part, "fit", quantity=many, source=source, **on)
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        said = [reason.sentence for reason in verdict_of(car, LATER).reasons]
        assert ("“Work on it” is done, but never fitted: bolt." in said) is left

    def test_what_came_off_the_car_goes_back_whole(self, cast, car):
        part, place = PartFactory(garage=cast.garage, name="Rod end"), PlaceFactory(garage=cast.garage)
        shelf.carry_out(part, "receive", quantity=2, target=place, by=cast.owner, at=NOW)
        shelf.carry_out(part, "fit", quantity=2, source=place, car=car, all_along=True, by=cast.owner, at=NOW)
        job = written(car, cast, kinds=["joint_opened"])
        needs.add(job, at=NOW, what="rod end", part=part)
        moved = {"job": job, "by": cast.helper, "at": NOW}
        off = shelf.carry_out(part, "pull", quantity=2, source=car_place(car), **moved)
        shelf.carry_out(part, "fit", quantity=1, source=off.target, car=car, **moved)
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        assert "“Work on it” is done, but never fitted: rod end." in why_not(car)

    def test_2_taken_off_the_car_for_its_own_job_and_never_back(self, cast, car, rod):
        job = written(car, cast, kinds=["joint_opened"])
        shelf.carry_out(rod, "pull", quantity=1, source=car_place(car), job=job, by=cast.helper, at=NOW)
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        steps.sign(job, by=cast.owner, at=NOW + 2 * HOUR)
        put_right(cast, car)
        assert why_not(car) == ["“Work on it” is done, but never fitted: Tie rod end."]
        assert verdict_of(car, LATER).do_not_drive

    def test_3_the_want_of_a_finished_job_struck_out_by_a_helper(self, cast, car):
        job = written(car, cast, kinds=["joint_opened"])
        asked = needs.add(job, at=NOW, what="rod end")
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        steps.sign(job, by=cast.owner, at=NOW + 2 * HOUR)
        put_right(cast, car)
        with pytest.raises(Refused, match="only the owner says that it did not need rod end"):
            needs.remove(asked, by=cast.helper)
        assert why_not(car) == ["“Work on it” is done, but never fitted: rod end."]
        needs.remove(asked, by=cast.owner)
        assert verdict_of(car, LATER).state == "fit"

    def test_4_counted_away_from_the_car(self, cast, car, rod):
        with pytest.raises(Refused, match="cannot be counted"):
            stock.count(rod, car_place(car), 0, by=cast.helper, at=NOW)

    @pytest.mark.parametrize("verb", ["take_off", "repair", "scrap"])
    def test_5_taken_off_by_another_word_than_pulled(self, cast, car, rod, verb):
        shelf.carry_out(rod, verb, quantity=1, source=car_place(car), by=cast.helper, at=NOW, why="bent")
        put_right(cast, car)
        assert "Open safety job: “Owed: Tie rod end”" in why_not(car)


class TestJoints:
    @pytest.fixture
    def nuts(self, cast, car):
        told = {"systems": ["wheels"], "opened_by": ["wheel_off"], "again_after_run": True}
        nuts = joints.add(car, name="Wheel nuts", figure_mnm=105_000, figure_from="manual", **told)
        self.torque(nuts, cast, NOW)
        return nuts

    @staticmethod
    def torque(nuts, cast, at, torque=105_000):
        joints.mark(nuts, by=cast.helper, at=at, key=uuid.uuid4(), torque_mnm=torque)
        joints.sign(nuts, by=cast.owner, at=at, key=uuid.uuid4())

    @staticmethod
    def change(nuts, by, **more):
        fields = {name: getattr(nuts, name) for name in joints.FIELDS}
        return joints.change(nuts, by=by, at=LATER, **{**fields, **more})

    @pytest.mark.parametrize(("field", "less"), [
        ("again_after_run", False), ("figure_mnm", None), ("figure_mnm", 20_000), ("systems", []), ("opened_by", []),
    ])  # fmt: skip
    def test_6_what_is_asked_of_a_joint_made_less_by_a_helper(self, cast, nuts, field, less):
        with pytest.raises(Refused, match="Only the owner") as refused:
            self.change(nuts, cast.helper, **{field: less})
        assert refused.value.field == field
        self.change(nuts, cast.helper, name="Wheel nuts, all", figure_mnm=105_000)
        self.change(nuts, cast.owner, **{field: less})

    def test_7_a_figure_written_down_for_the_first_time_by_a_helper(self, cast, car):
        bolt = joints.add(car, name="Bolt", systems=["steering"])
        assert self.change(bolt, cast.helper, figure_mnm=50_000, figure_from="manual").figure_mnm == 50_000

    @pytest.mark.parametrize(("torque", "taken"), [(94_500, True), (115_500, True), (94_499, False), (115_501, False)])
    def test_8_a_tenth_off_its_figure_and_beyond(self, cast, nuts, torque, taken):
        with nullcontext() if taken else pytest.raises(Refused, match="more than a tenth off"):
            self.torque(nuts, cast, NOW + HOUR, torque)

    def test_9_torqued_before_the_wheel_came_off_again(self, cast, car, nuts):
        job = written(car, cast, systems=["wheels"], kinds=["wheel_off"])
        steps.start(job, by=cast.helper, at=NOW + HOUR)
        self.torque(nuts, cast, NOW + 2 * HOUR)
        steps.finish(job, by=cast.helper, at=NOW + 3 * HOUR)
        steps.sign(job, by=cast.owner, at=NOW + 4 * HOUR)
        put_right(cast, car)
        assert any(sentence.startswith("Loose: Wheel nuts.") for sentence in why_not(car))


class TestWhatTheCarMustHave:
    def test_10_the_belts_taken_off_its_list_by_a_helper(self, cast, car):
        with pytest.raises(Refused, match="Only the owner says that Moth does not have"):
            check_lists.say_has(car, [], by=cast.helper)

    def test_11_a_life_by_use_that_a_helper_ends(self, cast, car):
        oil = piece(car, kind="free", name="Engine oil", last=None, meaning="made")
        set_life(oil, since=NOW - timedelta(days=400), by=cast.owner, at=NOW, months=6)
        due = "Due before the event is over: Engine oil."
        assert any(sentence.startswith(due) for sentence in why_not(car))
        with pytest.raises(Refused, match="Only the owner says that Engine oil lasts longer"):
            set_life(oil, since=NOW - timedelta(days=400), by=cast.helper, at=NOW)
        assert any(sentence.startswith(due) for sentence in why_not(car))

    @pytest.mark.parametrize("because", ["", ".", "-----", "12345678", "wrong"])
    def test_12_a_reading_struck_out_without_a_word(self, cast, car, because):
        with pytest.raises(Refused, match="Write down in words why it is struck out"):
            readings.strike(Reading.objects.first(), by=cast.helper, at=NOW, because=because)
        assert not Reading.objects.exclude(struck_at=None).exists()


class TestJobs:
    def test_13_the_hold_point_removed_while_the_work_waits_at_it(self, cast, car):
        job = written(car, cast, kinds=["joint_opened"])
        point = HoldPointFactory(job=job, what="Split pin in")
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        with pytest.raises(Refused, match="The work waits at this hold point"):
            hold_points.remove(point)
        put_right(cast, car)
        assert "Hold point not signed on “Work on it”: Split pin in" in why_not(car)

    @pytest.mark.parametrize("reason", ["", "x", "12345678", "a.b.c"])
    def test_14_safety_work_dropped_without_a_word(self, cast, car, reason):
        job = written(car, cast)
        with pytest.raises(Refused, match="Write down in words why it is dropped"):
            steps.drop(job, by=cast.owner, at=NOW, reason=reason)
        put_right(cast, car)
        assert "Open safety job: “Work on it”" in why_not(car)

    def test_15_what_was_found_finished_as_nothing_in_one_tap(self, cast, car):
        during = written(car, cast, kinds=["joint_opened"])
        steps.start(during, by=cast.helper, at=NOW)
        crack = findings.found(during, "Crack in the arm", hurts=True, by=cast.helper, at=NOW)
        steps.finish(during, by=cast.helper, at=NOW + HOUR)
        with pytest.raises(Refused, match="Tick what was opened"):
            steps.finish(crack, by=cast.helper, at=NOW + HOUR)
        with pytest.raises(Refused, match="Say in words why nothing of it was opened"):
            steps.finish(crack, by=cast.helper, at=NOW + HOUR, kinds=[])
        put_right(cast, car)
        assert "Open safety job: “Crack in the arm”" in why_not(car)

    def test_16_two_who_both_worked_sign_for_each_other(self, cast, car):
        """A hand on each of the two jobs of a batch, and the point on the second looks at both."""
        job = written(car, cast, kinds=["joint_opened"])
        steps.start(job, by=cast.helper, at=NOW, crew=[cast.helper, cast.owner])
        steps.finish(job, by=cast.helper, at=NOW + HOUR)
        with pytest.raises(Refused, match="Everybody here worked on this"):
            steps.sign(job, by=cast.helper, at=NOW + 2 * HOUR)
        steps.sign(job, by=cast.owner, at=NOW + 2 * HOUR)
        put_right(cast, car)
        assert verdict_of(car, LATER).sentence == "Fit to run; nobody but Ines has looked at 1 point"

    def test_17_a_job_finished_earlier_than_it_was_begun(self, cast, car):
        job = written(car, cast, kinds=["steering_arm"])
        steps.start(job, by=cast.helper, at=NOW + HOUR)
        with pytest.raises(Refused, match="before the step it ends"):
            steps.finish(job, by=cast.helper, at=NOW + 2 * HOUR, moment=NOW - HOUR)

    def test_18_a_reading_kept_as_the_last_act_of_work_that_goes_on_again(self, cast, car):
        job = written(car, cast, kinds=["joint_opened"])
        steps.start(job, by=cast.helper, at=NOW + HOUR)
        take(car, "toe_front", cast.owner, at=NOW + 2 * HOUR, last_of=job)
        steps.stop(job, by=cast.helper, at=NOW + 3 * HOUR)
        steps.start(job, by=cast.helper, at=NOW + 4 * HOUR)
        steps.finish(job, by=cast.helper, at=NOW + 5 * HOUR)
        assert any(sentence.startswith("Void: Front toe.") for sentence in why_not(car))

    def test_19_wanted_work_that_takes_a_wheel_off(self, cast, car):
        with pytest.raises(Refused, match="write down why it may rank below safety"):
            written(car, cast, title="Polish the rims", systems=["body"], kinds=["wheel_off"], rank="wanted")

    @pytest.mark.parametrize("answer", ["nobody", "ran", "taken back"])
    def test_20_a_day_that_nobody_told_the_truth_of(self, cast, car, answer):
        """That it ran, that nobody says so, and that somebody said it and took it back."""
        day = EventFactory(garage=cast.garage, gates_at=NOW + HOUR, ends_at=NOW + 3 * HOUR)
        entry = EntryFactory(event=day, vehicle=car)
        if answer != "nobody":
            ran = runs.first_session(entry, by=cast.helper, at=NOW + 2 * HOUR)
        if answer == "taken back":
            runs.not_run(ran, by=cast.helper, at=NOW + 2 * HOUR)
        tick_all(cast, LATER - HOUR)
        assert any("Wheel torque" in sentence for sentence in why_not(car))


def test_a_part_of_another_job_that_lies_on_the_bench_is_no_reason(cast, car):
    """Pulled for work that is still to do, and for work that nobody needs."""
    part, place = PartFactory(garage=cast.garage, name="Badge"), PlaceFactory(garage=cast.garage)
    shelf.carry_out(part, "receive", quantity=2, target=place, by=cast.owner, at=NOW)
    wanted = JobFactory(vehicle=car, rank="wanted", systems=["body"], title="Badges")
    shelf.carry_out(part, "pull", quantity=1, source=place, job=wanted, by=cast.helper, at=NOW)
    steps.finish(wanted, by=cast.helper, at=NOW + HOUR)
    assert verdict_of(car, LATER).state == "fit"
