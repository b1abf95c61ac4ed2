"""Gear changed without losing what it was in and what is known of it; how long it lasts by use; its fitting."""
