"""Fuses: the rating that stands a load, and the one that a conductor lets be fitted."""

# A: ratings as they are sold. Common practice, no source.
RATINGS = (1, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 100, 125, 150, 175, 200, 225, 250, 300)
# The part of its rating that a fuse bears for hours. From memory.
CONTINUOUS = 0.75


def fuse_for(amps: float) -> float | None:
    """The smallest rating (A) that bears a load (A) for hours; None beyond the largest."""
    return next((rating for rating in RATINGS if rating * CONTINUOUS >= amps), None)
