"""A part is read from the words of a job that asks for one."""

import pytest

from builds.steps.engine.part_said import part_said


@pytest.mark.parametrize(
    ("title", "name", "many"),
    [
        ("new fuel filter", "fuel filter", 1),
        ("N/S rear shock leaks - new pair", "N/S rear shock", 2),
        ("LR tyre has a nail, plug or new", "LR tyre", 1),
        ("Replace the handbrake cable", "handbrake cable", 1),
        ("Front brakes: new discs and pads, hose on left weeps", "discs", 1),
        ("Fit 2 new brake hoses (rear)", "brake hoses", 2),
        ("seat belts out of date: order new", "seat belts", 1),
        ("renew track rod end left before the alignment", "track rod end left", 1),
        ("replace o/s/f lower arm bush, perished", "o/s/f lower arm bush", 1),
        ("Renew w/screen seal", "w/screen seal", 1),
        ("new pads/discs", "pads", 1),
        ("new pair of springs for the rear", "springs", 2),
        *(
            (title, "", 0)
            for title in ("Bleed the brakes", "make a new start", "renewal of the licence", "new", "", "replace o")
        ),
    ],
)
def test_a_part_is_named(title, name, many):
    said = part_said(title)
    assert (said.name, said.many) == (name, many) if name else said is None
