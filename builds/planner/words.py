"""Slots in words, and how sentences call the people, stations and cars of a problem."""

from __future__ import annotations

from collections.abc import Callable

from builds.planner.fields import shown
from builds.planner.problem import Problem
from garage.engine.words import work_words

When = Callable[[int], str]
"""How a sentence writes the moment at which a slot begins."""


def slot_number(slot: int) -> str:
    """The moment of a slot where nothing is known of clocks: its number."""
    return f"slot {slot}"


def duration(slots: int, slot_minutes: int) -> str:
    """A length of time as "45 min", "3 h" or "3 h 15"."""
    return work_words(slots * slot_minutes)


class Names:
    """How sentences call what has an id: by its name if it has one, jobs in quotes."""

    def __init__(self, problem: Problem) -> None:
        self.jobs = {job.id: job for job in problem.jobs}
        self.person = {person.id: shown(person.name or person.id) for person in problem.people}
        self.station = {station.id: shown(station.name or station.id) for station in problem.stations}
        self.vehicle = {car.id: shown(car.name or car.id) for car in problem.vehicles}

    def job(self, job: str) -> str:
        """A job of the problem."""
        return self.jobs[job].label

    def car(self, vehicle: str | None) -> str:
        """The car of a job, known to the problem or not."""
        return self.vehicle.get(vehicle or "", shown(vehicle or "another car"))
