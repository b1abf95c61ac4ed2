"""The setup sheet with its head: a car's readings by its corners, and where the code leads."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime

from django.urls import reverse

from builds.readings.pages.corners import AxleRows, Figure, axles_of, by_wheel, derived_said, figure_of, said_of
from builds.readings.pages.setup import SetupKind, setup_sheet
from builds.sums.pages.kept import KeptRow, kept_rows
from builds.verdict.facts.verdict import verdict_of
from builds.verdict.pages import SheetHead, head_with
from garage.models import Vehicle

CHECKED = "passed"  # the one value of a kind that is a check
Tells = Callable[[SetupKind], list[str]]


@dataclass(frozen=True)
class BesideRow:
    """A figure that is of no corner; the row of a kind alone, above its figures, has none."""

    label: str
    said: str = ""
    figure: Figure | None = None


@dataclass(frozen=True)
class SetupRows:
    """`axles` are the front one and the rear one, where anything is read there, `beside` what is of no corner.

    `warnings` say what holds no more or does not count, `taken` how the rest came about, each of them once.
    """

    head: SheetHead
    car: str
    what: str
    axles: tuple[AxleRows, ...]
    beside: tuple[tuple[BesideRow, ...], ...]
    derived: tuple[str, ...]
    warnings: tuple[str, ...]
    taken: tuple[str, ...]
    sums: tuple[KeptRow, ...]


def setup_sheet_rows(vehicle: Vehicle, at: datetime) -> SetupRows:
    path, verdict = reverse("reading_list", args=[vehicle.pk]), verdict_of(vehicle, at)
    head = head_with(vehicle.garage, at, {vehicle.name: verdict}, path)
    kinds = setup_sheet(vehicle, at).kinds
    return setup_rows(head, vehicle.name, vehicle.what, kinds, tuple(kept_rows(vehicle, at)))


def setup_rows(
    head: SheetHead, car: str, what: str, kinds: tuple[SetupKind, ...], sums: tuple[KeptRow, ...]
) -> SetupRows:
    return SetupRows(
        head,
        car,
        what,
        axles_of(kinds),
        tuple(tuple(_beside(kind)) for kind in kinds if not by_wheel(kind)),
        tuple(derived_said(kinds)),
        tuple(_warnings(kinds)),
        tuple(_taken(kinds)),
        sums,
    )


def _beside(kind: SetupKind) -> Iterable[BesideRow]:
    """One check or figure in one row, of several each under the name of their kind."""
    label, alone = f"{kind.label}: {said_of(kind)}", len(kind.values) == 1
    if not alone:
        yield BesideRow(label)
    for value in kind.values:
        wanted = f"wanted {value.target}" if value.target else ""
        named = value.label if value.slug != CHECKED and value.label != kind.label else ""
        said = ", ".join(filter(None, [named, wanted])) if alone else wanted
        yield BesideRow(label if alone else value.label, said, figure_of(kind, value, value.target))


def _warnings(kinds: tuple[SetupKind, ...]) -> Iterable[str]:
    """Why some hold no more or do not count, said once of all that it is said of."""
    yield from _told(kinds, lambda kind: [kind.words], of_all=False)
    yield from _told(kinds, lambda kind: [kind.instrument], of_all=False)


def _taken(kinds: tuple[SetupKind, ...]) -> Iterable[str]:
    """By whom and when, with what, how the car stood, whose limits, and what was written beside it."""
    for said, alike in _groups(kinds, lambda kind: [f"Taken {kind.taken} by {kind.by}" if kind.taken else ""]).items():
        tools = _groups(alike, lambda kind: [f" ({kind.tool})" if kind.tool else ""], blank=True)
        yield f"{said}: {', '.join(f'{_names(told)}{tool}' for tool, told in tools.items())}."
    yield from _told(kinds, lambda kind: [f"{label}: {words}" for label, words in kind.conditions])
    for said, alike in _groups(kinds, lambda kind: [kind.limits]).items():
        yield f"Limits, {said}: {_names(alike)}."
    yield from (f"{kind.label}: {kind.note}" for kind in kinds if kind.note)


def _told(kinds: tuple[SetupKind, ...], tells: Tells, *, of_all: bool = True) -> Iterable[str]:
    """What is told of the same ones in one sentence, after their names; `of_all` that tell anything without them."""
    alike: dict[tuple[SetupKind, ...], list[str]] = {}
    for said, told in _groups(kinds, tells).items():
        alike.setdefault(tuple(told), []).append(said.removesuffix("."))
    telling = tuple(kind for kind in kinds if any(tells(kind)))
    for told, said in alike.items():
        names = "" if of_all and told == telling and len(told) > 1 else f"{_names(told)}: "
        yield f"{names[:1].upper()}{names[1:]}{', '.join(said)}."


def _groups(kinds: Iterable[SetupKind], tells: Tells, *, blank: bool = False) -> dict[str, list[SetupKind]]:
    """Each thing that is told of some of them with all those, in order; `blank` with those it tells nothing of."""
    groups: dict[str, list[SetupKind]] = {}
    for kind in kinds:
        for said in tells(kind):
            groups.setdefault(said, []).append(kind)
    return {said: alike for said, alike in groups.items() if said or blank}


def _names(kinds: Iterable[SetupKind]) -> str:
    return ", ".join(kind.name or kind.label for kind in kinds)
