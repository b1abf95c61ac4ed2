"""Sums of cooling, estimates all of them: heat and flows, fan against fan, when it boils."""
