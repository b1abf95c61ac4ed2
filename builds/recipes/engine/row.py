"""One table of a recipe, read field by field; every refusal says where and what."""

import re
from collections.abc import Collection, Mapping
from typing import Any, NoReturn

from builds.recipes.engine.recipe import RecipeError
from garage.engine.vocabulary import known

TEXT_MAX = 2_000
LIST_MAX = 50
_SLUG = re.compile(r"[a-z0-9]+(?:[-_][a-z0-9]+)*")


class TableRow:
    """Takes the fields of a plain table one after another; `close` refuses what is left over.

    Every method raises RecipeError, one sentence that begins with `where`.
    """

    def __init__(self, table: Any, where: str) -> None:
        self.where = where
        if not isinstance(table, Mapping):
            self.fail("a table was expected")
        self._left = dict(table)

    def fail(self, what: str) -> NoReturn:
        raise RecipeError(f"{self.where}: {what}.")

    def close(self) -> None:
        if self._left:
            self.fail(f"{next(iter(self._left))!r} is not a field here")

    def text(self, name: str, longest: int = TEXT_MAX, required: bool = True) -> str:
        value = self._left.pop(name, "")
        if not isinstance(value, str):
            self.fail(f"{name} must be text")
        value = value.strip()
        if required and not value:
            self.fail(f"{name} is missing")
        return self._short(name, value, longest)

    def slug(self, name: str) -> str:
        value = self.text(name)
        if not _SLUG.fullmatch(value) or len(value) > 60:
            self.fail(f"{name} must be lower-case letters, digits, - and _, 60 at most")
        return value

    def optional_slug(self, name: str) -> str | None:
        return self.slug(name) if self._left.get(name) is not None else self._left.pop(name, None)

    def choice(self, name: str, words: Collection[str]) -> str | None:
        value = self._left.pop(name, None)
        if value is not None and (not isinstance(value, str) or value not in words):
            self.fail(f"{name} must be one of {', '.join(words)}")
        return value

    def words(self, name: str, vocabulary: Collection[str], noun: str) -> tuple[str, ...]:
        values = self.lines(name)
        try:
            known(values, vocabulary, noun)
        except ValueError as error:
            self.fail(str(error).rstrip("."))
        return values

    def lines(self, name: str) -> tuple[str, ...]:
        values = self.items(name)
        if not all(isinstance(value, str) and value.strip() for value in values):
            self.fail(f"{name} must be a list of texts")
        if len(set(values)) < len(values):
            self.fail(f"{name} names something twice")
        return tuple(self._short(name, value.strip()) for value in values)

    def items(self, name: str, most: int = LIST_MAX) -> list[Any]:
        values = self._left.pop(name, [])
        if not isinstance(values, list):
            self.fail(f"{name} must be a list")
        if len(values) > most:
            self.fail(f"{name} has more than {most} entries")
        return values

    def whole(self, name: str, default: int, least: int, most: int) -> int:
        return self._whole(name, self._left.pop(name, default), least, most)

    def flag(self, name: str) -> bool:
        value = self._left.pop(name, False)
        if not isinstance(value, bool):
            self.fail(f"{name} must be true or false")
        return value

    def three_minutes(self, name: str, most: int) -> tuple[int, int, int]:
        values = self.items(name)
        if len(values) != 3:
            self.fail(f"{name} needs three figures: goes well, likely, fights back")
        well, likely, badly = (self._whole(name, value, 0, most) for value in values)
        if not well <= likely <= badly:
            self.fail(f"{name} must rise from goes well over likely to fights back")
        return well, likely, badly

    def units(self, name: str) -> dict[str, int]:
        table = self._left.pop(name, {})
        if not isinstance(table, Mapping):
            self.fail(f"{name} must be a table of station and units")
        inner = TableRow(table, f"{self.where}, {name}")
        for station in table:
            TableRow({"station": station}, self.where).slug("station")
        return {station: inner.whole(station, 1, 1, 20) for station in table}

    def texts(self, name: str, longest: int) -> dict[str, str]:
        table = self._left.pop(name, {})
        if not isinstance(table, Mapping):
            self.fail(f"{name} must be a table of texts")
        inner = TableRow(table, f"{self.where}, {name}")
        return {key: inner.text(key, longest) for key in table}

    def _whole(self, name: str, value: Any, least: int, most: int) -> int:
        if not isinstance(value, int) or isinstance(value, bool) or not least <= value <= most:
            self.fail(f"{name} must be a whole number from {least} to {most}")
        return value

    def _short(self, name: str, value: str, longest: int = TEXT_MAX) -> str:
        if len(value) > longest:
            self.fail(f"{name} is longer than {longest} characters")
        return value
