"""Sums of the brakes: ratio, areas, pressure, bias."""
