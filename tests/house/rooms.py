"""The rooms of the house, as the import contracts and the folders' own first lines name them."""

import ast
import tomllib
from dataclasses import dataclass

from tests.house.places import ROOT

OUTER = {"urls", "management", "templatetags"}


@dataclass(frozen=True)
class Room:
    """`level` counts from the top: a room imports only rooms of a greater one."""

    name: str
    level: int
    holds: str


def contract(name: str) -> dict:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())
    return next(each for each in settings["tool"]["importlinter"]["contracts"] if each["name"] == name)


def first_line(folder) -> str:
    text = ast.get_docstring(ast.parse((folder / "__init__.py").read_text())) or ""
    return text.split("\n")[0]


def rooms() -> list[Room]:
    """From the upper to the lower, as the contract has them."""
    levels = [[name.strip(" ()") for name in layer.split("|")] for layer in contract("Rooms of builds")["layers"]]
    return [
        Room(name, level, first_line(ROOT / "builds" / name))
        for level, names in enumerate(levels)
        for name in names
        if name not in OUTER
    ]
