"""Known pieces of work as chains of jobs, put on a car in one act."""
