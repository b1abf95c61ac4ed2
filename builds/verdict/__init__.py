"""Fit to run or not, and every reason; the head of every sheet."""
