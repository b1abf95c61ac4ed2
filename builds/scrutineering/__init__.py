"""Scrutineering lists and their ticks, the first session, the strip-down after an event."""
