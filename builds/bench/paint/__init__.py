"""Sums of paint and glue: cure time at a temperature, dew point."""
