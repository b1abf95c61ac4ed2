"""Label sheets: every label on its paper, none over another, half-used sheets, pages."""

import pytest

from parts.engine.label_grid import BY_SLUG, GRIDS, PAPER_MM, Grid, GridError, lay, spot


@pytest.mark.parametrize("grid", GRIDS, ids=lambda grid: grid.slug)
def test_labels_lie_on_the_paper_and_not_on_each_other(grid):
    (spots,) = lay(grid, grid.each)
    wide, tall = PAPER_MM[grid.paper]
    assert len(set(spots)) == grid.each
    for one in spots:
        assert one.x >= 0 and one.x + one.width <= wide + 0.05
        assert one.y >= 0 and one.y + one.height <= tall + 0.05
        for other in spots:
            apart = abs(one.x - other.x) >= one.width - 0.05 or abs(one.y - other.y) >= one.height - 0.05
            assert one == other or apart


def test_every_grid_has_a_name_and_each_paper_a_plain_sheet():
    assert len(BY_SLUG) == len(GRIDS)
    assert {grid.paper for grid in GRIDS if grid.plain} == set(PAPER_MM)


def test_labels_are_counted_along_the_rows():
    grid = BY_SLUG["a4-21"]
    assert (spot(grid, 1).x, spot(grid, 1).y) == (7.25, 15.15)
    assert (spot(grid, 3).x, spot(grid, 3).y) == (7.25 + 132, 15.15)
    assert (spot(grid, 4).x, spot(grid, 4).y) == (7.25, 15.15 + 38.1)


@pytest.mark.parametrize(
    "labels, start, pages",
    [
        (0, 1, []), (1, 21, [1]), (2, 21, [1, 1]), (21, 1, [21]), (22, 1, [21, 1]),
        (21, 2, [20, 1]), (43, 5, [17, 21, 5]),
    ],
)  # fmt: skip
def test_a_half_used_sheet_is_used_up_first(labels, start, pages):
    sheets = lay(BY_SLUG["a4-21"], labels, start)
    assert [len(sheet) for sheet in sheets] == pages
    if labels:
        assert sheets[0][0] == spot(BY_SLUG["a4-21"], start)
        for sheet in sheets[1:]:
            assert sheet[0] == spot(BY_SLUG["a4-21"], 1)


@pytest.mark.parametrize("start", [0, -1, 22, 10**9])
def test_a_start_beyond_the_sheet_is_refused(start):
    with pytest.raises(GridError, match="labels 1 to 21"):
        lay(BY_SLUG["a4-21"], 1, start)


@pytest.mark.parametrize(
    "wrong",
    [{"columns": 0}, {"rows": 9}, {"across": 60}, {"left": -1}, {"paper": "a5"}, {"down": 38}],
)
def test_a_sheet_that_cannot_be_is_refused(wrong):
    usual = {
        "slug": "x", "paper": "a4", "columns": 3, "rows": 7, "width": 63.5, "height": 38.1,
        "left": 7.25, "top": 15.15, "across": 66, "down": 38.1,
    }  # fmt: skip
    assert Grid(**usual).each == 21
    with pytest.raises(GridError):
        Grid(**{**usual, **wrong})
