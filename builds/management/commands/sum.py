"""Work out a bench sum: `sum corner-weights fl=312.5 fr=298 …`; without figures, say what it asks."""

import json
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from builds.bench.catalogue import SUMS
from builds.bench.frame.read import read, work_out
from builds.bench.frame.say import answer_said, give_in, heading_said, table_said
from builds.bench.frame.sums import Ask, Sum, Worked
from builds.bench.frame.units import in_system, unit_in


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("name", help="of a sum; `manage.py sums` lists them")
        parser.add_argument("figures", nargs="*", help="field=value, with or without a unit")
        parser.add_argument("--json", action="store_true", help="unrounded figures, for other programs")
        parser.add_argument("--imperial", action="store_true", help="figures without a unit are inches and pounds")

    def handle(self, *args: Any, name: str, figures: list[str], **options: Any) -> None:
        asked = SUMS.get(name)
        if asked is None:
            raise CommandError(f"There is no sum “{name}”. `manage.py sums` lists them.")
        system = "imperial" if options["imperial"] else "metric"
        if not figures:
            self._asks(asked, system)
            return
        typed = dict(_pair(asked, figure) for figure in figures)
        worked, errors = work_out(asked, typed, system)
        if worked is None:
            raise CommandError("\n".join(f"{slug}: {said}" if slug else said for slug, said in errors.items()))
        if options["json"]:
            self.stdout.write(json.dumps(_table(asked, typed, worked, system), ensure_ascii=False, indent=1))
        else:
            self._say(asked, worked, system)

    def _asks(self, asked: Sum, system: str) -> None:
        self.stdout.write(self.style.MIGRATE_HEADING(asked.title))
        self.stdout.write(asked.question)
        given = read(asked, asked.example).figures
        for ask in asked.asks:
            example = ask.example or ask.default
            if ask.slug in given:
                example = f"{in_system(given[ask.slug], ask.unit, system):.6g}"
            self.stdout.write(f"  {ask.slug}={example:<12} {_asked(ask, system)}")
        self.stdout.write(asked.caution)

    def _say(self, asked: Sum, worked: Worked, system: str) -> None:
        for answer in worked.answers:
            self.stdout.write(f"{answer.label}: {answer_said(answer, system)}")
        if worked.table:
            self.stdout.write(worked.table.title)
            for cells in table_said(worked.table, system):
                self.stdout.write("  ".join(f"{cell:>16}" for cell in cells))
        for warning in worked.warnings:
            self.stdout.write(self.style.WARNING(warning))
        self.stdout.write(f"{asked.assumes} {asked.caution}")


def _pair(asked: Sum, figure: str) -> tuple[str, str]:
    slug, equals, text = figure.partition("=")
    if not equals or asked.ask(slug) is None:
        known = ", ".join(ask.slug for ask in asked.asks)
        raise CommandError(f"“{figure}” is not one of its figures. Write field=value with a field of: {known}.")
    return slug, text


def _asked(ask: Ask, system: str) -> str:
    said = ask.label
    if ask.choices:
        said = f"{said}: {', '.join(slug for slug, _ in ask.choices)}"
    elif ask.unit:
        said = f"{said}, {unit_in(ask.unit, system)}"
    if ask.lines:
        said = f"{said}, one a line"
    return said if ask.needed and not ask.default else f"{said} (may be left out)"


def _table(asked: Sum, typed: dict[str, str], worked: Worked, system: str) -> dict[str, Any]:
    readable = read(asked, typed, system)
    return {
        "sum": asked.slug,
        "given": readable.figures | readable.texts,
        "answers": {
            answer.slug: {
                "value": None if answer.value is None else in_system(answer.value, answer.unit, system),
                "unit": unit_in(answer.unit, system),
                "give": give_in(answer, system),
                "said": answer_said(answer, system),
            }
            for answer in worked.answers
        },
        "table": worked.table
        and {
            "columns": [heading_said(column, system) for column in worked.table.columns],
            "rows": [
                [
                    cell if isinstance(cell, str) else in_system(cell, column.unit, system)
                    for cell, column in zip(cells, worked.table.columns, strict=True)
                ]
                for cells in worked.table.rows
            ],
        },
        "warnings": list(worked.warnings),
        "caution": asked.caution,
    }
