"""Measurements with their conditions and targets, and which work makes which void."""
