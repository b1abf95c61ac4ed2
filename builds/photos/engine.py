"""The photos of a car as a story: by day, and of work that was photographed before and after, both as a pair."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, tzinfo

# What a photo shows: `("car", 1)`, `("job", 4)`, `("reading", 7)`.
Shown = tuple[str, int]


@dataclass(frozen=True, slots=True)
class Shot:
    """A photo (id) at its moment (aware), and what it is `of`."""

    id: int
    at: datetime
    of: Shown


@dataclass(frozen=True, slots=True)
class WorkDone:
    """When hands were first on a piece of work, and when it ended (aware)."""

    began: datetime
    ended: datetime


@dataclass(frozen=True, slots=True)
class Scene:
    """What was photographed of one thing on one day (ids), `before` and `after` of work that ended on it."""

    day: date
    of: Shown
    shots: tuple[int, ...] = ()
    before: int | None = None
    after: int | None = None

    @property
    def many(self) -> int:
        return len(self.shots) + (2 if self.before else 0)


def story(shots: Iterable[Shot], works: Mapping[Shown, WorkDone], zone: tzinfo) -> list[Scene]:
    """Scenes, the last first; `works` by what shots are `of`.

    A pair is the last photo before hands were on the work and the last of those since its end, which make the
    difference plain; each photo stands in one scene.
    """
    rows = sorted(shots, key=lambda shot: (shot.at, shot.id))
    pairs = {of: pair for of, work in works.items() if (pair := _pair([shot for shot in rows if shot.of == of], work))}
    paired = {shot.id for pair in pairs.values() for shot in pair}
    days: dict[tuple[date, Shown], list[Shot]] = {}
    for shot in rows:
        if shot.id not in paired:
            days.setdefault((shot.at.astimezone(zone).date(), shot.of), []).append(shot)
    for of, (_, last_shot) in pairs.items():
        days.setdefault((last_shot.at.astimezone(zone).date(), of), [])
    scenes = []
    for (day, of), singles in days.items():
        pair = pairs.get(of)
        shown = pair if pair and pair[1].at.astimezone(zone).date() == day else None
        before, after = (shown[0].id, shown[1].id) if shown else (None, None)
        last = max(shot.at for shot in (*singles, *(shown or ())))
        scenes.append((last, Scene(day, of, tuple(shot.id for shot in singles), before, after)))
    return [scene for _, scene in sorted(scenes, key=lambda dated: dated[0], reverse=True)]


def cut(scenes: Iterable[Scene], most: int) -> list[tuple[Scene, ...]]:
    """The scenes in their order, in parts of `most` photos (3 at least); one that has more goes on in the next part."""
    parts: list[list[Scene]] = [[]]
    room = most
    for scene in scenes:
        for piece in _pieces(scene, most):
            if piece.many > room:
                parts.append([])
                room = most
            parts[-1].append(piece)
            room -= piece.many
    return [tuple(part) for part in parts if part]


def _pieces(scene: Scene, most: int) -> Iterator[Scene]:
    """Of at most so many photos each, the pair with the first."""
    first = most - (scene.many - len(scene.shots))
    yield replace(scene, shots=scene.shots[:first])
    for begin in range(first, len(scene.shots), most):
        yield Scene(scene.day, scene.of, scene.shots[begin : begin + most])


def _pair(shots: list[Shot], work: WorkDone) -> tuple[Shot, Shot] | None:
    before = [shot for shot in shots if shot.at <= work.began]
    after = [shot for shot in shots if shot.at >= work.ended and shot not in before]
    return (before[-1], after[-1]) if before and after else None
