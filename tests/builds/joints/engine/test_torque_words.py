"""Torque figures in notes: those with a unit of torque are found, as written, and nothing else."""

import pytest

from builds.joints.engine.torque_words import MOST, torque_lines


@pytest.mark.parametrize(
    "sentence",
    [
        "Hub nut 140 N·m, then 60°", "Caliper 110 Nm", "Rod end 35 to 40 N m", "Arm 80 lbf·ft",
        "Pinch bolt 22 ft-lb", "Small ones 90 in lb", "Studs 12,5 N·m", "Jam nut 1.5–2 N⋅m",
        "140NM on the hub", "Wheel nuts 81 ft·lbf",
    ],
)  # fmt: skip
def test_a_figure_with_its_unit_is_found(sentence):
    assert torque_lines(f"Clean first. {sentence}. Then paint.") == (f"{sentence}.",)


@pytest.mark.parametrize(
    "note",
    ["", "140 nuts", "5 mm gap", "12 N", "3 m of hose", "M10x1.25 new", "8 inches", "Room 12 nm2",
     "Part N-140-m", "2 ft long", "10 lb"],
)  # fmt: skip
def test_other_numbers_are_not(note):
    assert torque_lines(note) == ()


def test_each_line_of_a_list_by_itself_without_its_dash():
    note = "- Top bolt 45 N·m\n- Bottom bolt 60 N·m\n\nNew nuts"
    assert torque_lines(note) == ("Top bolt 45 N·m", "Bottom bolt 60 N·m")


def test_a_note_full_of_figures_gives_so_many():
    assert len(torque_lines("5 N·m\n" * 700)) == MOST
