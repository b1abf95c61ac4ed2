"""The jobs that come and go by themselves, as work makes readings void: the recipes that they are marked with."""

MEASURE_AGAIN, BLEED_AGAIN = "measure-again", "bleed-again"
MEASURES_AGAIN = (MEASURE_AGAIN, *(f"{MEASURE_AGAIN}-{part}" for part in range(2, 12)))
"""One for each stretch of the measuring chain that other jobs leave, so as many as it has steps where something is
read, and one for what has no step."""
TAKEN_AGAIN = {BLEED_AGAIN: "To bleed", **dict.fromkeys(MEASURES_AGAIN, "To measure again")}
"""What a list of them is headed with; one job of each is open on a car at a time."""
