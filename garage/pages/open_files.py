"""What stands in a garage's open files, told for whoever reads them with other tools; drawn from the models."""

from collections.abc import Iterator
from datetime import datetime

from django.apps import apps
from django.db import DEFAULT_DB_ALIAS, models
from django.utils.text import slugify

from garage.engine.open_files.contents import ENDED, LEFT_OUT, withheld
from garage.facts.garage_rows import GarageBooks, open_columns

HEAD = """# A garage as open files

All of one garage, in files that any tool reads. Drawn from the models by `manage.py export_garage --guide`.

- `json/TABLE.json` holds a table as a list of objects, one a line, in UTF-8. Moments are ISO 8601 in UTC, days
  `YYYY-MM-DD`, lengths of time `days seconds microseconds`; nothing is `null`.
- `csv/TABLE.csv` holds the same for a spreadsheet: nothing is an empty cell, a list or a table is JSON in one cell, and
  a text that a spreadsheet would run has an apostrophe before it. Only the JSON is read back.
- `photos/` holds two pictures of each photo, named after its `name` in `garage_photo`.
- `manifest.json` says which version wrote the files, how many rows there are, what is left out and why, and the
  SHA-256 of each file, by which one that was cut off or changed is refused.

A column that names a row of another table says so with an arrow. Figures are in SI units or small parts of them, as
the end of a column's name says: `_um` micrometres, `_mc` thousandths of a degree Celsius, `_mnm` thousandths of a
newton metre, `_pa` pascals, `_ml` millilitres, `_minor` the currency's smallest coin.

`manage.py import_garage FILE` brings the garage into another server of this version or a later one, beside the garages
that live there. Every row gets a number of its own there, and every key (`uuid`) another one.
"""


def guide_text() -> str:
    books = GarageBooks(DEFAULT_DB_ALIAS)
    ours = {model._meta.db_table: model for model in apps.get_models(include_auto_created=True)}
    told = [_table(ours[table]) for table in books.models]
    left = "".join(f"- `{table}`: {why}\n" for table, why in LEFT_OUT.items())
    return f"{HEAD}\n## Tables\n\n{''.join(told)}## Left out\n\n{left}"


def _table(model: type[models.Model]) -> str:
    meta = model._meta
    words = "" if (model.__doc__ or "").startswith(f"{meta.object_name}(") else " ".join((model.__doc__ or "").split())
    about = f"{words}\n\n" if words else ""
    return f"### `{meta.db_table}`: {meta.verbose_name}\n\n{about}{''.join(_lines(model))}\n"


def _lines(model: type[models.Model]) -> Iterator[str]:
    table, fields = model._meta.db_table, {field.column: field for field in model._meta.local_concrete_fields}
    for name, kind in open_columns(model, emails=True).items():
        field = fields[name]
        leads = f" → `{field.related_model._meta.db_table}`" if field.remote_field else ""
        plain = field.verbose_name.replace(" ", "_") in (field.name, "ID")
        words = "" if plain or field.remote_field else f", {field.verbose_name}"
        empty = ", or nothing" if field.null else ""
        ended = ", never empty: a link without its secret stands as ended" if ENDED.get(table) == name else ""
        asked = ", left out unless asked for" if name in withheld(table, emails=False) else ""
        yield f"- `{name}`: {kind}{leads}{words}{empty}{ended}{asked}\n"
    for name, why in withheld(table, emails=True).items():
        yield f"- `{name}` is left out: {why}\n"


def open_file_name(words: str, at: datetime) -> str:
    return f"{slugify(words)[:60] or 'garage'}-{at:%Y%m%d}.zip"
