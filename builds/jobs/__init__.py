"""The page of a job, and every form that changes a job, its links and its hold points."""
