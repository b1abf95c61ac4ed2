"""What pages share of the work: the tags of cars and jobs, the weather that a job waits for."""

from builds.work.pages.cards import CarCard, JobCard

__all__ = ["CarCard", "JobCard"]
