"""Sums of weight: corners, perches, masses, the height of the centre of gravity."""
