"""Pictures brought down to a size: the largest that may come, the narrowest that stays one."""

from garage.engine.picture_sizes import MOST_SIDE, fit, too_large


def test_a_picture_is_made_smaller_and_never_larger_or_nothing():
    sizes = [(320, 200), (319, 10), (640, 400), (400, 640), (640, 1), (1, 640), (9999, 1)]
    assert [fit(size, 320) for size in sizes] == [
        (320, 200), (319, 10), (320, 200), (200, 320), (320, 1), (1, 320), (320, 1),
    ]  # fmt: skip


def test_too_large_by_its_side_or_by_its_pixels():
    assert not too_large((MOST_SIDE, 3333)) and too_large((MOST_SIDE + 1, 1)) and too_large((1, MOST_SIDE + 1))
    assert not too_large((8000, 5000)) and too_large((8000, 5001))
