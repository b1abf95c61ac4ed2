"""Dated safety gear, judged by each event's rule."""
