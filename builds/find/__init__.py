"""One box that finds cars, jobs, parts, readings, people, events, recipes, sums and pages, typing errors forgiven."""
