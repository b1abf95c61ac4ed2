"""The photos of a car on paper: by day, each with its words, work before and after beside each other."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from itertools import groupby
from pathlib import Path

from django.core.paginator import Paginator
from django.urls import reverse

from builds.photos.pages.story import SceneShown, car_story
from builds.verdict.facts.verdict import verdict_of
from builds.verdict.pages import SheetHead, head_with
from garage import photo_files
from garage.clock import zone
from garage.engine.moments import paper_words
from garage.models import Photo, Vehicle


@dataclass(frozen=True)
class PrintedPhoto:
    """A photo: its `file`, its `size` there (px), what it is beside another (`Before`, `After`, else nothing), what it
    shows, and who took it when.
    """

    file: Path
    size: tuple[int, int]
    when: str
    caption: str
    taken: str


@dataclass(frozen=True)
class SceneRows:
    """`pair` is before and after, or nothing; `pictures` are the others of that day."""

    title: str
    pair: tuple[PrintedPhoto, ...]
    pictures: tuple[PrintedPhoto, ...]


@dataclass(frozen=True)
class StorySheet:
    """`part` says which one it is, where one file does not hold all; `days` with their scenes, the last first."""

    head: SheetHead
    car: str
    what: str
    part: str
    days: tuple[tuple[str, tuple[SceneRows, ...]], ...]


def story_sheet_rows(vehicle: Vehicle, at: datetime, part: str | int = 1) -> StorySheet:
    """Of the `part` asked for, counted from 1; the nearest where there is none such."""
    story = car_story(vehicle)
    parts = Paginator(story.printed, 1)
    asked = parts.get_page(part)
    scenes = [scene for scenes in asked for scene in scenes]
    path, verdict = reverse("photo_story", args=[vehicle.pk]), verdict_of(vehicle, at)
    return StorySheet(
        head_with(vehicle.garage, at, {vehicle.name: verdict}, path),
        vehicle.name,
        vehicle.what,
        f"Part {asked.number} of {parts.num_pages}, the last days first" if parts.num_pages > 1 else "",
        tuple(_days(story.shown(scenes))),
    )


def _days(scenes: Iterable[SceneShown]) -> Iterable[tuple[str, tuple[SceneRows, ...]]]:
    for day, of_day in groupby(scenes, key=lambda scene: scene.day):
        yield _day_words(day), tuple(_rows(scene) for scene in of_day)


def _day_words(day: date) -> str:
    return f"{day:%a} {day.day} {day:%b %Y}"


def _rows(scene: SceneShown) -> SceneRows:
    pair = (_picture(scene.before, "Before"), _picture(scene.after, "After")) if scene.before and scene.after else ()
    return SceneRows(scene.title, pair, tuple(_picture(photo) for photo in scene.photos))


def _picture(photo: Photo, when: str = "") -> PrintedPhoto:
    return PrintedPhoto(
        photo_files.path(photo.name, "large"),
        (photo.width, photo.height),
        when,
        photo.caption,
        f"{photo.by.name}, {paper_words(photo.at, zone())}",
    )
