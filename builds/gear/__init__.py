"""Gear with a date or a life by use, judged by each event's rule."""
