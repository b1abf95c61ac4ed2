"""The kinds of sheet that `manage.py sheet` writes: what each asks, and how it is drawn."""

import argparse
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from django.core.management.base import CommandError

from builds.management.lookups import (
    the_car,
    the_entry,
    the_event,
    the_job,
    the_part,
    the_person,
    the_place,
)
from builds.packing import sheet as pack
from builds.packing.pages.sheet import pack_sheet_rows
from builds.paper.pages.checklist import checklist_rows
from builds.paper.pages.drive_tag import drive_tag_rows
from builds.paper.pages.plan_sheet import plan_sheet_rows
from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.paper.pages.story_sheet import story_sheet_rows
from builds.paper.sheets import checklist, drive_tag, plan, setup, story
from builds.shelf import sheet as shelf
from builds.shelf.pages.owed_sheet import owed_sheet_rows
from builds.shelf.pages.want_sheet import want_sheet_rows
from builds.today.facts.asked import Asked
from builds.today.pages.asked import asked_words
from builds.today.pages.card_sheet import card_sheet_rows
from builds.today.pages.pull_sheet import pull_sheet_rows
from builds.today.sheets import cards, pull
from garage.models import Garage
from parts.engine.label_grid import BY_SLUG, GridError
from parts.models import Place
from parts.pages.labels import MOST, CodeLabel, all_in, labels_of
from parts.sheets.labels import calibration, labels

Options = dict[str, Any]
Drawn = tuple[str, bytes]


@dataclass(frozen=True)
class SheetKind:
    """`ask` adds what the kind asks for; `draw` gives what to call the file, and its bytes."""

    help: str
    ask: Callable[[argparse.ArgumentParser], None]
    draw: Callable[[Garage, datetime, Options], Drawn]


def _ask_car(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("car", help="its name")


def _ask_nothing(parser: argparse.ArgumentParser) -> None:
    """Of the whole garage."""


def _ask_entry(parser: argparse.ArgumentParser) -> None:
    _ask_car(parser)
    _ask_event(parser)


def _ask_event(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("event", nargs="?", default="", help="its name, else the next one")


def _ask_work(parser: argparse.ArgumentParser) -> None:
    one = parser.add_mutually_exclusive_group()
    one.add_argument("--person", default="", help="the evening of this person")
    one.add_argument("--event", default="", help="all that is open on the cars of this event")
    one.add_argument("--job", default="", help="this job, by title or number")


def _ask_owed(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("car", nargs="?", default="", help="its name, else every car")


def _ask_labels(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--place", action="append", default=[], help="with all that is in it")
    parser.add_argument("--places", action="store_true", help="every place by itself")
    parser.add_argument("--part", action="append", default=[], help="by name or code")
    parser.add_argument("--on", default="", help=f"which sheet: {', '.join(BY_SLUG)}")
    parser.add_argument("--start", type=int, default=1, help="first free label")
    parser.add_argument("--calibrate", action="store_true", help="a page to hold against a sheet")


def _asked(garage: Garage, at: datetime, options: Options) -> Asked:
    if options["person"]:
        return Asked(person=the_person(garage, options["person"]))
    if options["event"]:
        return Asked(event=the_event(garage, options["event"], at))
    return Asked(job=the_job(garage, options["job"])) if options["job"] else Asked()


def _checklist(garage: Garage, at: datetime, options: Options) -> Drawn:
    entry = the_entry(garage, options["car"], options["event"], at)
    name = f"{entry.vehicle} {entry.event}"
    return name, checklist.checklist(checklist_rows(entry, at))


def _cards(garage: Garage, at: datetime, options: Options) -> Drawn:
    asked = _asked(garage, at, options)
    return f"cards {asked_words(asked)}", cards.job_cards(card_sheet_rows(garage, at, asked))


def _pull(garage: Garage, at: datetime, options: Options) -> Drawn:
    asked = _asked(garage, at, options)
    return f"pull {asked_words(asked)}", pull.pull_sheet(pull_sheet_rows(garage, at, asked))


def _drive_tag(garage: Garage, at: datetime, options: Options) -> Drawn:
    car = the_car(garage, options["car"])
    return f"do not drive {car}", drive_tag.drive_tag(drive_tag_rows(car, at))


def _owed(garage: Garage, at: datetime, options: Options) -> Drawn:
    car = the_car(garage, options["car"]) if options["car"] else None
    name = f"owed {car}" if car else "owed"
    return name, shelf.owed_sheet(owed_sheet_rows(garage, at, car))


def _wanted(garage: Garage, at: datetime, options: Options) -> Drawn:
    return "wanted", shelf.want_sheet(want_sheet_rows(garage, at))


def _pack(garage: Garage, at: datetime, options: Options) -> Drawn:
    event = the_event(garage, options["event"], at)
    return f"pack {event}", pack.pack_sheet(pack_sheet_rows(event, at))


def _setup(garage: Garage, at: datetime, options: Options) -> Drawn:
    car = the_car(garage, options["car"])
    return f"setup {car}", setup.setup_sheet(setup_sheet_rows(car, at))


def _plan(garage: Garage, at: datetime, options: Options) -> Drawn:
    return "plan", plan.plan_sheet(plan_sheet_rows(garage, at, older=options["older"]))


def _ask_story(parser: argparse.ArgumentParser) -> None:
    _ask_car(parser)
    parser.add_argument("--part", type=int, default=1, help="where one file does not hold all of them")


def _story(garage: Garage, at: datetime, options: Options) -> Drawn:
    car = the_car(garage, options["car"])
    return f"photos {car}", story.story_sheet(story_sheet_rows(car, at, options["part"]))


def _labels(garage: Garage, at: datetime, options: Options) -> Drawn:
    slug = options["on"] or f"{garage.paper}-plain"
    if slug not in BY_SLUG:
        raise CommandError(f"There is no sheet called {slug}: there is {', '.join(BY_SLUG)}.")
    grid = BY_SLUG[slug]
    if options["calibrate"]:
        return f"calibration {slug}", calibration(grid)
    rows = _chosen(garage, options)
    if not rows:
        raise CommandError("Which labels? Say --place, --places or --part.")
    if len(rows) > MOST:
        raise CommandError(f"That is {len(rows)} labels and a file holds {MOST}.")
    try:
        return "labels", labels(rows, grid, options["start"])
    except GridError as wrong:
        raise CommandError(str(wrong)) from wrong


def _chosen(garage: Garage, options: Options) -> list[CodeLabel]:
    every = Place.objects.in_garage(garage).inside().walking_order() if options["places"] else []
    whole = [label for name in options["place"] for label in all_in(the_place(garage, name))]
    parts = [the_part(garage, name) for name in options["part"]]
    return list(dict.fromkeys([*whole, *labels_of(every, parts)]))


KINDS = {
    "checklist": SheetKind("the pre-event sheet of a car", _ask_entry, _checklist),
    "job-cards": SheetKind("a card for every job of the evening", _ask_work, _cards),
    "pull": SheetKind("what to fetch from the shelf", _ask_work, _pull),
    "do-not-drive": SheetKind("the tag to hang on a wheel", _ask_car, _drive_tag),
    "owed": SheetKind("what cars are owed", _ask_owed, _owed),
    "wanted": SheetKind("what is to be bought, and by when", _ask_nothing, _wanted),
    "pack": SheetKind("what goes to an event", _ask_event, _pack),
    "setup": SheetKind("a car's readings", _ask_car, _setup),
    "plan": SheetKind("the plan for the wall", _ask_nothing, _plan),
    "story": SheetKind("a car's photos by day", _ask_story, _story),
    "labels": SheetKind("labels for places and parts", _ask_labels, _labels),
}
