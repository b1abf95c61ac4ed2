"""Sums of springs and suspension geometry."""
