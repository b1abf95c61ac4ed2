"""A wheel comes off for what is done at it: the finish has that ticked before somebody looks."""

import pytest

from builds.steps.engine.by_words import job_said
from builds.steps.engine.opened import offered_first, ticked_beforehand


@pytest.mark.parametrize(
    ("titles", "off"),
    [
        ("N/S rear shock leaks - new pair; springs; coilovers; ball joint left; wheel bearing; hub; upright", True),
        ("front pads and discs; new caliper; flexi hose weeps; driveshaft gaiter split; CV joint; track rod end", True),
        (
            "Bleed brakes; master cylinder; set ride height; rack centring; gear lever gaiter; engine mount",
            False,
        ),
    ],
)
def test_a_wheel_comes_off_for_what_is_done_at_it(titles, off):
    for title in titles.split("; "):
        said = job_said(title)
        ticked = ticked_beforehand(title, said.kinds)
        assert ("wheel_off" in ticked) is off, title
        assert {*said.kinds} <= {*ticked} and {*ticked} <= {*offered_first(said.systems, ticked)}
