"""Sums of wheels: pattern, offset and spacer, thread engaged."""
