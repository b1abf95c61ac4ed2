"""Changes that might get a car there: each makes another problem, and says how much trouble it is."""
