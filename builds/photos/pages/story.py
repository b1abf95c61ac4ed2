"""The page of a car's photos: its story, scene by scene."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.urls import reverse

from builds.photos.engine import Scene, Shown, cut, story
from builds.photos.facts import CarShots, car_shots
from garage.clock import zone
from garage.models import Photo, Vehicle

MOST_PRINTED = 36  # photos of one file: 11 MB at most


@dataclass(frozen=True)
class SceneShown:
    """`title` with its page (`url`); the pair `before` and `after`, if it is one, then the other photos of that day."""

    day: date
    title: str
    url: str
    before: Photo | None
    after: Photo | None
    photos: tuple[Photo, ...]


@dataclass(frozen=True)
class CarStory:
    vehicle: Vehicle
    shots: CarShots
    scenes: list[Scene]

    @property
    def printed(self) -> list[tuple[Scene, ...]]:
        """As files of paper, the last days first."""
        return cut(self.scenes, MOST_PRINTED)

    def shown(self, scenes: Iterable[Scene]) -> list[SceneShown]:
        return [self._shown(scene) for scene in scenes]

    def _shown(self, scene: Scene) -> SceneShown:
        title, url = self._subject(scene.of)
        photos = self.shots.photos
        return SceneShown(
            scene.day,
            title,
            url,
            photos.get(scene.before or 0),
            photos.get(scene.after or 0),
            tuple(photos[pk] for pk in scene.shots),
        )

    def _subject(self, of: Shown) -> tuple[str, str]:
        kind, pk = of
        if kind == "job":
            job = self.shots.jobs[pk]
            return job.title, reverse("job_page", args=[job.pk])
        if kind == "reading":
            reading = self.shots.readings[pk]
            return "A reading", reverse("reading_page", args=[reading.vehicle_id, reading.key])
        return self.vehicle.name, reverse("vehicle_page", args=[self.vehicle.pk]) + "?tab=log"


def car_story(vehicle: Vehicle) -> CarStory:
    shots = car_shots(vehicle)
    return CarStory(vehicle, shots, story(shots.shots, shots.works, zone()))
