"""Forms of a sheet on its way to the shelf: the file, its columns, one row."""

from collections.abc import Mapping
from typing import Any

from django import forms

from garage.forms.edits import EditForm
from parts.engine.book import COLUMNS, by_column, guess
from parts.engine.table import MOST_BYTES, MOST_LETTERS, SheetTable, TableError, read_csv
from parts.forms.workbook import MARK, read_workbook
from parts.models import Batch, BatchRow

NOT_THERE = ("", "not in the file")
SHOWN = 24


class SheetForm(forms.Form):
    """Cleans `sheet` to a table."""

    sheet = forms.FileField(
        label="The file",
        help_text="CSV or XLSX, 5 MB and 20,000 rows at most; the headings are its first row.",
        widget=forms.FileInput({"accept": ".csv,.tsv,.txt,.xlsx"}),
        allow_empty_file=True,
    )

    def clean_sheet(self) -> SheetTable:
        file = self.cleaned_data["sheet"]
        if file.size > MOST_BYTES:
            raise forms.ValidationError("The file is larger than 5 MB: split it.")
        data = file.read()
        try:
            return read_workbook(data) if data.startswith(MARK) else read_csv(data)
        except TableError as wrong:
            raise forms.ValidationError(str(wrong)) from wrong


class ColumnsForm(EditForm, forms.Form):
    """Which heading of the file is which column; at first as was `said` of such headings before, or guessed.

    `sample` is a row of it.
    """

    def __init__(self, *args: Any, batch: Batch, sample: list[str], said: Mapping[str, str], **kwargs: Any) -> None:
        known = batch.columns or guess(batch.headings, said)
        super().__init__(*args, **kwargs)
        named = zip(batch.headings, sample, strict=True)
        headings = [
            NOT_THERE,
            *((str(at), _such_as(*pair)) for at, pair in enumerate(named) if pair[0]),
        ]
        for slug, column in COLUMNS.items():
            self.fields[slug.replace(" ", "_")] = forms.ChoiceField(
                label=column.label.capitalize(),
                choices=headings,
                required=False,
                initial=str(known.get(slug, "")),
            )

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        taken: dict[str, str] = {}
        for name, position in list(cleaned.items()):
            if position and position in taken:
                other = self.fields[taken[position]].label
                self.add_error(name, f"That column is “{other}” already.")
            elif position:
                taken[position] = name
        if not self.errors and not (cleaned.get("name") or cleaned.get("code")):
            self.add_error("name", "Say which column has what each part is.")
        return cleaned

    def columns(self) -> dict[str, int]:
        """By slug, the position of each column that the file has."""
        chosen = ((slug, self.cleaned_data[slug.replace(" ", "_")]) for slug in COLUMNS)
        return {slug: int(position) for slug, position in chosen if position}


def _such_as(heading: str, cell: str) -> str:
    """A heading with what is below it; much of it would hide the heading."""
    short = cell if len(cell) <= SHOWN else f"{cell[:SHOWN]}…"
    return f"{heading} (such as {short})" if cell else heading


class RowForm(EditForm, forms.Form):
    """The cells of one row, as they are in the file."""

    def __init__(self, *args: Any, row: BatchRow, batch: Batch, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for slug, cell in by_column(row.cells, batch.columns).items():
            wide = slug == "note" or len(cell) > 60
            self.fields[slug.replace(" ", "_")] = forms.CharField(
                label=COLUMNS[slug].label.capitalize(),
                max_length=MOST_LETTERS,
                required=False,
                initial=cell,
                widget=forms.Textarea({"rows": 3}) if wide else forms.TextInput,
            )

    def said(self) -> dict[str, str]:
        return {name.replace("_", " "): cell for name, cell in self.cleaned_data.items()}

    def add_problems(self, problems: Any) -> None:
        for problem in problems:
            name = problem.column.replace(" ", "_")
            self.add_error(name if name in self.fields else None, problem.why)
