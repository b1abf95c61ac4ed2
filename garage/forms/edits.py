"""Forms that change what stands: each carries the values it was drawn with, so that of two writers none is lost."""

import json
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.functional import cached_property

from garage.engine.merge import Merged, merged

WITHOUT = "This form came without the values that it was drawn with: look at it again, then save it again."
MOST_LETTERS = 400_000


@dataclass(frozen=True)
class BothVersions:
    """What stands in a field now, and what was typed into it meanwhile, in words."""

    label: str
    stands: str
    typed: str


class EditForm(forms.BaseForm):
    """Mixed in before the form's own base; `edits` is False where the same form writes down something new.

    What only one of two writers changed is taken over from him; where both changed a field, the form is
    refused, with both versions side by side and what was typed kept. Sent again, it is meant so.
    """

    def __init__(self, *args: Any, edits: bool = True, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.edits = edits
        self.came_without = False
        self.merge: Merged | None = None

    @cached_property
    def standing(self) -> dict[str, list[str]]:
        """What stands now, by field, as the form would send it untouched."""
        fields = {name: field for name, field in self.fields.items() if not field.disabled}
        return {name: _drawn(field, self.get_initial_for_field(field, name)) for name, field in fields.items()}

    @property
    def drawn(self) -> str:
        """The hidden value that `marks/form_keys.html` draws."""
        return json.dumps(self.standing, separators=(",", ":")) if self.edits else ""

    @property
    def both(self) -> list[BothVersions]:
        """The fields that somebody else changed to something else since the form was drawn."""
        names = self.merge.clashes if self.merge else ()
        return [
            BothVersions(
                self[name].label,
                self._value_words(name, self.standing[name]),
                self._value_words(name, self._typed(name)),
            )
            for name in names
        ]

    @property
    def taken_over(self) -> list[BothVersions]:
        """The fields that somebody else changed, and this writer did not."""
        names = self.merge.taken if self.merge else {}
        return [BothVersions(self[name].label, self._value_words(name, self.standing[name]), "") for name in names]

    def full_clean(self) -> None:
        if self.edits and self.is_bound and self.merge is None and not self.came_without:
            self._meet()
        super().full_clean()
        if self.came_without:
            self.add_error(None, WITHOUT)
        for name in self.merge.clashes if self.merge else ():
            stands = self._value_words(name, self.standing[name])
            self.add_error(name, f"Somebody changed this while you wrote: it says “{stands}” now.")

    def _meet(self) -> None:
        was = _read(self.data.get("drawn", ""))
        if was is None:
            self.came_without = True
            return
        self.merge = merged(was, self.standing, {name: self._typed(name) for name in self.standing})
        self.data = self.data.copy()
        for name, values in self.merge.taken.items():
            self.data.setlist(self.add_prefix(name), values)
            if not values:
                del self.data[self.add_prefix(name)]

    def _typed(self, name: str) -> list[str]:
        widget = self.fields[name].widget
        return _plain(widget.value_from_datadict(self.data, self.files, self.add_prefix(name)))

    def _value_words(self, name: str, values: list[str]) -> str:
        field = self.fields[name]
        if isinstance(field.widget, forms.CheckboxInput):
            return "yes" if values else "no"
        labels = dict(_flat(getattr(field, "choices", ())))
        said = ", ".join(labels.get(value, value) for value in values)
        return f"{said} {getattr(field, 'unit', '')}".strip() if said else "nothing"


def _drawn(field: forms.Field, initial: Any) -> list[str]:
    if isinstance(field.widget, forms.CheckboxInput):
        return _plain(bool(initial))
    return _plain(field.widget.format_value(field.prepare_value(initial)))


def _plain(value: Any) -> list[str]:
    """A browser's and the form's own value in one shape: lines end alike, ticks have no order."""
    if isinstance(value, bool):
        return ["on"] if value else []
    values = value if isinstance(value, list | tuple) else [value]
    texts = ("" if one is None else str(one).replace("\r\n", "\n").strip() for one in values)
    return sorted(text for text in texts if text)


def _flat(choices: Any) -> list[tuple[str, str]]:
    pairs = []
    for key, label in choices:
        pairs += _flat(label) if isinstance(label, list | tuple) else [(str(key), str(label))]
    return pairs


def _read(sent: str) -> dict[str, list[str]] | None:
    """What a form says it was drawn with; None when that cannot be read."""
    try:
        was = json.loads(sent[:MOST_LETTERS])
    except (ValueError, RecursionError):
        return None
    if not isinstance(was, dict) or not all(isinstance(values, list) for values in was.values()):
        return None
    return {name: [str(value) for value in values] for name, values in was.items()}
