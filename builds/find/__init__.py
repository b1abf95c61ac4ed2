"""One box that finds cars, jobs, parts, readings, people and events, typing errors forgiven."""
