"""What somebody saw on a car that is fit: nothing of before says otherwise, and nobody makes it less in silence."""

import uuid
from datetime import timedelta

import pytest

from builds.joints import actions as joints
from builds.joints.facts import joint_lines
from builds.paddock.actions import write
from builds.paddock.engine import Write
from builds.readings.actions import readings
from builds.readings.actions.readings import TargetInput
from builds.readings.facts.kinds import kind_of
from builds.readings.facts.readings import readings_of
from builds.readings.facts.seen import seen_of
from builds.steps.actions import jobs, steps
from builds.steps.actions.findings import found
from builds.verdict.engine import Severity
from builds.verdict.facts.verdict import verdict_of
from builds.work.models.job import Job
from garage.actions.refused import Refused
from tests.builds.readings.reading_kit import take
from tests.builds.verdict.moth_kit import tick_all
from tests.factories import NOW, VehicleFactory

pytestmark = [pytest.mark.once, pytest.mark.usefixtures("now")]
HOUR = timedelta(hours=1)
WORK = (30, 60, 90)
WHY = "looked all over it, nothing there"


@pytest.fixture
def mats(cast, car):
    return jobs.add(car, by=cast.helper, at=NOW, title="Wash the mats", work=WORK, systems=["body"], rank="wanted")


@pytest.fixture
def nuts(cast, car):
    """Marked by Tove and signed by Ines."""
    joint = joints.add(car, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"], figure_mnm=110_000,
                       figure_from="maker")  # fmt: skip
    mark(joint, cast.helper, cast.owner, NOW)
    return joint


def mark(joint, by, eyes, at, torque=110_000, note=""):
    joints.mark(joint, by=by, at=at, key=uuid.uuid4(), torque_mnm=torque, typed=str(torque // 1000), note=note)
    joints.sign(joint, by=eyes, at=at, key=uuid.uuid4())


def standing(car, at):
    (line,) = joint_lines(car.garage, [car], at)[car.pk]
    return line.standing.state


def torque(car, at):
    return readings_of(car.garage, [car], at)[car.pk].lines["wheel_torque"].state


def edit(job, cast, who, **more):
    told = {"systems": job.systems, "rank": job.rank, "lowered_because": "", "stations": {}, "left_minutes": None}
    return jobs.change(Job.objects.get(pk=job.pk), by=getattr(cast, who), at=NOW, work=WORK, **{**told, **more})


def test_a_torque_read_low_ends_the_mark_of_before_though_it_is_read_right_again(cast, car, nuts):
    kind = kind_of(car.garage, "wheel_torque")
    aim = {field.slug: TargetInput("off", 110_000, 11_000, "110", "11") for field in kind.figures}
    readings.set_targets(car, kind, aim)
    take(car, "wheel_torque", cast.helper, at=NOW + HOUR, amount=120_000)
    assert standing(car, NOW + HOUR) == "stands", "within its limits says nothing"
    take(car, "wheel_torque", cast.helper, at=NOW + 2 * HOUR, amount=60_000)
    take(car, "wheel_torque", cast.owner, at=NOW + 3 * HOUR, amount=110_000)
    assert (seen_of(car.garage, NOW)[car.pk][-1].at, standing(car, NOW + 3 * HOUR)) == (NOW + 2 * HOUR, "void")
    (reason,) = [one for one in verdict_of(car, NOW + 3 * HOUR).reasons if one.kind == "joint"]
    assert reason.severity == Severity.UNSIGNED and "was read out of its limits" in reason.sentence
    mark(nuts, cast.helper, cast.owner, NOW + 4 * HOUR)
    assert standing(car, NOW + 4 * HOUR) == "stands"


@pytest.mark.parametrize(("sort", "amount", "second", "out"), [
    ("least", 100_000, None, True), ("least", 60_000, None, False), ("most", 50_000, None, True),
    ("most", 60_000, None, False), ("off", 70_000, 9_999, True), ("off", 70_000, 10_000, False),
    ("between", 61_000, 70_000, True), ("between", 10_000, 59_999, True), ("between", 60_000, 60_000, False),
])  # fmt: skip
def test_the_rows_that_are_out_are_those_that_the_engine_judges_out(cast, car, sort, amount, second, out):
    kind = kind_of(car.garage, "wheel_torque")
    second_typed = "" if second is None else "1"
    aim = {field.slug: TargetInput(sort, amount, second, "1", second_typed) for field in kind.figures}
    readings.set_targets(car, kind, aim)
    take(car, "wheel_torque", cast.helper, at=NOW + HOUR, amount=60_000)
    line = readings_of(car.garage, [car], NOW + HOUR)[car.pk].lines["wheel_torque"]
    seen = {sight.at for sight in seen_of(car.garage, NOW).get(car.pk, ())}
    assert (line.judged == "out") is out is (NOW + HOUR in seen)


def test_nuts_found_loose_are_marked_and_read_again_whatever_becomes_of_the_finding(cast, car, nuts, mats):
    job = found(mats, "Wheel nuts loose, front left", hurts=False, by=cast.helper, at=NOW + HOUR)
    assert (standing(car, NOW + HOUR), torque(car, NOW + HOUR)) == ("void", "void")
    steps.drop(job, by=cast.owner, at=NOW + HOUR, reason="somebody tightened them")
    tick_all(cast, NOW + 2 * HOUR)
    verdict = verdict_of(car, NOW + 2 * HOUR)
    assert (standing(car, NOW + 2 * HOUR), torque(car, NOW + 2 * HOUR)) == ("void", "void")
    assert verdict.do_not_drive and "“Wheel nuts loose, front left” was found" in verdict.reasons[0].sentence
    mark(nuts, cast.helper, cast.owner, NOW + 3 * HOUR)
    take(car, "wheel_torque", cast.owner, at=NOW + 3 * HOUR)
    assert (standing(car, NOW + 3 * HOUR), torque(car, NOW + 3 * HOUR)) == ("stands", "stands")
    (said,) = verdict_of(car, NOW + 3 * HOUR).dropped
    assert said.startswith("“Wheel nuts loose, front left” was dropped without being done: somebody tightened them (")


def test_a_mark_off_its_figure_is_said_with_its_note_though_it_is_signed(cast, car, nuts):
    mark(nuts, cast.helper, cast.owner, NOW + HOUR, torque=60_000, note="no wrench")
    (reason,) = verdict_of(car, NOW + HOUR).reasons
    said = "Not at its figure: Wheel nuts. It was brought to 60 N·m, and its figure is 110 N·m: no wrench."
    assert (reason.sentence, reason.severity) == (said, Severity.READING)


@pytest.mark.parametrize(
    "line", ["Can see cord", "Weld has opened up on the front hoop", "Something clonks at the back"]
)
def test_what_nobody_can_read_is_not_of_the_job_that_it_was_found_on(cast, mats, line):
    job = found(mats, line, hurts=False, by=cast.helper, at=NOW)
    assert (job.systems, job.rank, job.seen) == ([], "needed", True)
    for who, told in (("helper", {}), ("owner", {}), ("owner", {"lowered_because": WHY})):
        with pytest.raises(Refused):
            edit(job, cast, who, rank="wanted", **told)
    with pytest.raises(Refused, match="Somebody saw this: write down why"):
        edit(job, cast, "helper", rank="wanted", systems=["body"])
    lowered = edit(job, cast, "helper", rank="wanted", systems=["body"], lowered_because=WHY)
    assert lowered.lowered_because == WHY
    assert f"“{line}” ranks wanted, not needed: {WHY}" in verdict_of(mats.vehicle, NOW).lowered


def test_it_is_dropped_by_the_owner_finished_with_why_and_looked_at(cast, car, mats):
    job = found(mats, "Something clonks at the back", hurts=False, by=cast.helper, at=NOW)
    with pytest.raises(Refused, match="Only the owner can drop what was found and nobody has said what it touches"):
        steps.drop(job, by=cast.helper, at=NOW + HOUR, reason=WHY)
    with pytest.raises(Refused, match="Say in words why"):
        steps.finish(job, by=cast.helper, at=NOW + HOUR, kinds=[])
    steps.finish(job, by=cast.helper, at=NOW + HOUR, kinds=[], because=WHY)
    assert "“Something clonks at the back” is done, but nobody has signed it." in [
        reason.sentence for reason in verdict_of(car, NOW + HOUR).reasons
    ]
    with pytest.raises(Refused):
        steps.sign(job, by=cast.helper, at=NOW + HOUR)
    steps.sign(job, by=cast.owner, at=NOW + HOUR)


def test_what_was_seen_on_a_car_stays_there_and_keeps_what_it_said(cast, car, mats):
    job = found(mats, "Wheel nuts loose, front left", hurts=False, by=cast.helper, at=NOW)
    with pytest.raises(Refused, match="was seen on Moth: drop it here with a reason") as refused:
        edit(job, cast, "owner", vehicle=VehicleFactory(garage=cast.garage, name="Wasp"))
    assert refused.value.field == "vehicle"
    assert edit(job, cast, "helper", title="Wheel nuts loose again").was_called == ""
    job = edit(job, cast, "helper", title="Polish the mirror")
    assert (job.called, job.rank) == ("Polish the mirror (was: Wheel nuts loose again)", "safety")
    called = "“Polish the mirror” (was “Wheel nuts loose again”)"
    assert f"Open safety job: {called}" in [reason.sentence for reason in verdict_of(car, NOW).reasons]
    assert edit(job, cast, "helper", title="Wheel nuts loose, front left").was_called == ""
    assert edit(mats, cast, "helper", title="Polish the mirror").was_called == ""


def test_a_note_of_the_day_is_a_finding_like_any_other(cast, moth, car):
    entry, key = moth[1], uuid.uuid4()
    sent = Write(f"note-{entry.pk}", "said", 0, NOW, value="pedal goes to the floor")
    write(entry.event, sent, by=cast.helper, at=NOW, key=key)
    assert Job.objects.get(title="pedal goes to the floor").seen
    assert verdict_of(car, NOW).do_not_drive
