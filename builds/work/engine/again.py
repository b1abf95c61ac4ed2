"""The jobs that come and go by themselves, as work makes readings void: the recipes that they are marked with."""

MEASURE_AGAIN, BLEED_AGAIN = "measure-again", "bleed-again"
TAKEN_AGAIN = {BLEED_AGAIN: "To bleed", MEASURE_AGAIN: "To measure again"}
"""What a list of them is headed with; one job of each is open on a car at a time."""
