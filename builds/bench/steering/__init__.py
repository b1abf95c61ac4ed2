"""Sums of the steering in plan view: lock angles, the margin to over-centre, ratio and effort."""
