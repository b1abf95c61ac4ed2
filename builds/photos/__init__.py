"""Photos of cars, parts, jobs, hold points and readings."""
