"""Steering as it is and as it would be, against worked figures of one car: S1, S2, S3 and S4 of `test_bench_steering`.

The rules of thumb are common practice, no source; on this car a spacer on a short arm locks over centre instead.
"""

import pytest

from builds.bench.catalogue import sum_called
from builds.bench.frame.read import work_out
from builds.bench.steering.linkage import LEFT, RIGHT, Linkage

pytestmark = pytest.mark.plain
ASKED = sum_called("steering-change")
NOW = {ask.slug: ask.example for ask in ASKED.asks if ask.example and not ask.slug.startswith("new")}
SHORT = NOW | {"arm": "95"}


def row(worked, name):
    (found,) = (cells for cells in worked.table.rows if cells[0] == name)
    return found[1:]


def test_a_shorter_arm_side_by_side():
    worked, errors = work_out(ASKED, NOW | {"new_arm": "95"})
    assert not errors
    now, after = row(worked, "Now"), row(worked, "Afterwards")
    assert now[:6] == pytest.approx((32.7875, 30.6096, 32.7875, 30.6096, 48.368, 98.035), abs=1e-3)
    assert after[:6] == pytest.approx((51.4880, 40.6688, 51.4880, 40.6688, 22.399, 70.870), abs=1e-3)
    assert now[6:] == pytest.approx((15.6985, 109.20, 133.17), abs=0.005)
    assert after[6:] == pytest.approx((11.7950, 145.34, 268.94), abs=0.005)
    assert worked.value("effort") == pytest.approx(33.1, abs=0.05)
    assert worked.value("rod_left") == pytest.approx(366.8264 - 363.3825, abs=1e-4)
    assert worked.warnings[0].startswith("22° from over centre is little")


def test_six_millimetres_more_on_the_short_arm_lock_over_centre():
    worked, errors = work_out(ASKED, SHORT | {"spacer": "6"})
    assert worked is None
    assert errors["travel"].startswith("Afterwards: It locks over centre at 70.7 mm")


def test_a_spacer_that_gives_no_travel_moves_the_joints_and_eats_thread():
    worked, _ = work_out(ASKED, SHORT | {"spacer": "6", "stopped_by": "other", "engaged": "18"})
    assert row(worked, "Afterwards")[:2] == pytest.approx((51.5841, 40.6630), abs=1e-4)
    assert worked.value("rod_left") == pytest.approx(360.8272 - 366.8264, abs=1e-4)
    assert worked.value("thread") == pytest.approx(12)
    assert any("less than its 14.0 mm across" in warning for warning in worked.warnings)
    assert any("measure what is engaged" in said for said in work_out(ASKED, NOW | {"spacer": "6"})[0].warnings)


def test_an_arm_turned_to_nought_is_a_change_of_its_own():
    worked, _ = work_out(ASKED, NOW | {"new_arm": "110", "new_arm_in": "0"})
    assert [name for name, *_ in worked.table.rows] == ["Now", "Arm's length alone", "Arm turned, alone", "Afterwards"]


def test_the_rack_moved_forward():
    worked, _ = work_out(ASKED, SHORT | {"new_rack": "80"})
    assert worked.value("rod_right") == pytest.approx(367.0485 - 366.8264, abs=1e-4)


@pytest.mark.parametrize("aside", [20, -20])
def test_a_rack_off_centre_locks_unevenly_and_says_so(aside):
    """Stroke and inner joints are moved together."""
    worked, _ = work_out(ASKED, NOW | {"aside": f"{aside}"})
    left, right = row(worked, "Afterwards")[0], row(worked, "Afterwards")[2]
    other = Linkage(1400, 125, 8, 640, 100, aside=aside)
    assert left == pytest.approx(other.angle(LEFT, -65 - aside))
    assert right == pytest.approx(-other.angle(RIGHT, 65 - aside))
    assert abs(left - right) > 15
    assert any(warning.startswith("Left and right lock differ by") for warning in worked.warnings)
    assert worked.value("rod_left") * worked.value("rod_right") < 0


def test_off_centre_either_way_is_a_mirror():
    one, other = (row(work_out(ASKED, NOW | {"aside": aside})[0], "Afterwards") for aside in ("20", "-20"))
    assert one[:2] == pytest.approx(other[2:4])
    assert one[4:] == pytest.approx(other[4:])


def test_longer_tie_rods_toe_the_wheels_in():
    worked, _ = work_out(ASKED, NOW | {"longer": "1.5"})
    assert worked.value("rod_left") == pytest.approx(1.5)
    assert worked.value("margin") != pytest.approx(48.368, abs=1e-3)


def test_a_rule_of_thumb_is_said_where_this_car_agrees():
    def thumbs(**typed):
        worked, _ = work_out(ASKED, NOW | typed)
        (said,) = (answer.words for answer in worked.answers if answer.slug == "thumbs")
        return said

    assert "5 to 10 mm more rack travel" in thumbs(spacer="10")
    assert thumbs(new_arm="120") == "none of the three"
    assert "half the ratio" in thumbs(new_arm="65", travel="30")
    assert "25° into 45°" in thumbs(new_arm="78", travel="52")


def test_a_rack_beyond_its_end_is_refused():
    worked, errors = work_out(ASKED, NOW | {"aside": "65"})
    assert worked is None
    assert errors == {"aside": "Afterwards: It lies beyond the end of its travel."}


def test_nothing_changed_is_no_comparison():
    worked, errors = work_out(ASKED, NOW)
    assert worked is None
    assert "nothing is" in errors["new_arm"]
