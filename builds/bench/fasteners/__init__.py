"""Sums of bolts and nuts: torque, preload, what threads together."""
