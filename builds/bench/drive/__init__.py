"""Sums of gearing: speed by engine speed."""
