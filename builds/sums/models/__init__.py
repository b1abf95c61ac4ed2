"""Rows of sums: those kept on a car, and the dimensions of the car that they ask for."""

from builds.sums.models.dimension import Dimension
from builds.sums.models.kept_sum import KeptSum

__all__ = ["Dimension", "KeptSum"]
