"""Jobs of a car as the order of work sees them, from the words of whoever typed them and from nothing else."""

from builds.readings.engine.car_job import CarJob
from builds.readings.engine.corners_said import corner_said
from builds.readings.engine.fits_said import comes_out_said, fits_said
from builds.readings.engine.when_said import RAN, when_said
from builds.steps.engine.by_words import job_said
from garage.engine.systems_said import fault_said


def typed(title: str) -> CarJob:
    said, when = job_said(title), when_said(title)
    return CarJob(
        said.kinds,
        () if when == RAN else said.measures,
        said.systems,
        faulty=fault_said(title),
        guessed=True,
        by_hand=True,
        fits=fits_said(title),
        comes_out=comes_out_said(title),
        corner=corner_said(title),
        unsaid=said.unsaid and not when,
        when=when,
    )
