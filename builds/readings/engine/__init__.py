"""Readings of a car: what they are, what they hold, what they need, and when they go void."""

from builds.readings.engine.vocabulary import READINGS, Measurement, in_measuring_order, names_of, resting_on

__all__ = ["READINGS", "Measurement", "in_measuring_order", "names_of", "resting_on"]
