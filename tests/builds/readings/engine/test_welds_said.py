"""Tacked is not welded, as somebody's own words leave it; common practice, no source."""

import pytest

from builds.readings.engine.welds_said import weld_said


@pytest.mark.parametrize(
    ("weld", "titles"),
    [
        ("tacked", "Tack weld the lower arm bracket; tacked the gusset on; tack it up; TACK the pickup in place"),
        ("tacked", "Tack the new pickup, weld it out next week; tack and weld later; only tacked, to be welded"),
        (
            "tacked",
            "Tacked, ready to weld; tack the bracket before welding; tack weld, fit check, weld out on Saturday",
        ),
        ("welded", "Weld the arm; weld out the tacked pickup; tack and weld the turret; tack, then weld the foot"),
        ("welded", "Seam weld the shell; tack up & weld the bracket; MIG the cage foot; fully weld what was tacked"),
        ("", "Patch the chassis leg; plate the turret; wipe with a tack cloth; spot the rust"),
    ],
)
def test_words_leave_a_weld_tacked_or_welded(weld, titles):
    wrong = {title: said for title in titles.split(";") if (said := weld_said(title, ["part_weld"])) != weld}
    assert wrong == {}


@pytest.mark.parametrize("kinds", [[], ["hot_work"], ["paint"]])
def test_a_tack_where_nobody_gets_hurt_is_none(kinds):
    assert weld_said("Tack the exhaust hanger", kinds) == ""


def test_each_kind_of_weld_that_somebody_gets_hurt_by():
    assert {weld_said("Tack it", [kind]) for kind in ("part_weld", "chassis_weld")} == {"tacked"}
