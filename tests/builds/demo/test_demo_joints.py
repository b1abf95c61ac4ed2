"""The demo garage's joints: opened by the arm's rework, standing, and one that nobody signed."""

from builds.joints.facts import joint_lines
from builds.verdict.facts.verdict import verdict_of
from tests.factories import NOW


def test_one_car_has_joints_in_every_state_that_a_visitor_should_see(demo):
    heron = demo.vehicles.get(name="Heron")
    lines = joint_lines(demo, demo.vehicles.all(), NOW)
    assert list(lines) == [heron.pk]
    assert {line.joint.name: line.standing.state for line in lines[heron.pk]} == {
        "Caliper bolts, front": "loose",
        "Shoulder strap bolts": "unsigned",
        "Sump plug": "stands",
        "Tie-rod ends, both sides": "loose",
        "Wheel nuts, front": "loose",
    }
    said = [reason.sentence for reason in verdict_of(heron, NOW).reasons]
    assert "Marked, not signed: Shoulder strap bolts. Nobody else has looked at it." in said
