"""Many items ticked in one form: section by section all of these, but not those."""

from collections import defaultdict
from typing import Any
from zlib import crc32

from django import forms

from builds.scrutineering.models.check import CheckItem
from builds.scrutineering.pages.check_list import CheckRow
from garage.forms.choices import TicksField
from garage.forms.within import FormWithin

MEANWHILE = "One of these is ticked or failed meanwhile: look again."


class SectionForm(forms.Form):
    """Nothing is ticked beforehand; `seen` are the items (pk) that were drawn, and none but those is meant."""

    all = forms.BooleanField(label="I looked at all of these", required=False)
    but = TicksField(
        label="but not at",
        error_messages={"invalid_choice": MEANWHILE},
    )
    seen = forms.CharField(required=False, max_length=4000, widget=forms.HiddenInput)

    def __init__(self, *args: Any, title: str, rows: list[CheckRow], **kwargs: Any) -> None:
        self.title, self.items = title, {str(check.item.pk): check.item for check in rows}
        super().__init__(*args, initial={"seen": ",".join(self.items)}, **kwargs)
        self.fields["but"].choices = [(key, item.text) for key, item in self.items.items()]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if cleaned.get("but") and not cleaned.get("all"):
            self.add_error("all", "Tick this too, or take the marks off below: as it is, nothing is ticked.")
        return cleaned

    @property
    def opens(self) -> bool:
        """Whether something was said in it, or is wrong."""
        return self.is_bound and bool(self.errors or self["all"].value() or self["but"].value())

    @property
    def looked_at(self) -> list[CheckItem]:
        if not self.cleaned_data["all"]:
            return []
        seen = self.cleaned_data["seen"].split(",")
        return [item for key, item in self.items.items() if key in seen and key not in self.cleaned_data["but"]]


class ManyForm(FormWithin):
    """`rows` are those that are not ticked; what was worked on or is void is ticked one by one."""

    alone = TicksField(
        label="These want a look of their own: I looked at",
        error_messages={"invalid_choice": MEANWHILE},
    )

    def __init__(self, data: Any = None, *, rows: list[CheckRow]) -> None:
        super().__init__(data)
        alone = [check for check in rows if check.why or check.void]
        plain = sorted((check for check in rows if not check.why and not check.void), key=_place)
        self.by_themselves = {str(check.item.pk): check.item for check in alone}
        by_section: dict[str, list[tuple[str, str]]] = defaultdict(list)
        for check in alone:
            by_section[check.item.section].append((str(check.item.pk), _said(check)))
        self.fields["alone"].choices = list(by_section.items())
        if not alone:
            del self.fields["alone"]
        # An organiser's list may come back to a section: that is still one form, with one name.
        sections: dict[tuple[int, str], list[CheckRow]] = defaultdict(list)
        for check in plain:
            sections[check.item.checklist_id, check.item.section].append(check)
        self.each = [
            SectionForm(data, title=title, rows=listed, prefix=f"section-{checklist}-{crc32(title.encode()):x}")
            for (checklist, title), listed in sections.items()
        ]

    @property
    def within(self) -> list[SectionForm]:
        return self.each

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        wrong = self.errors or any(form.errors for form in self.each)
        if not wrong and not self.looked_at():
            self.add_error(None, "Tick at least one thing that you looked at.")
        return cleaned

    def looked_at(self) -> list[CheckItem]:
        alone = [self.by_themselves[key] for key in self.cleaned_data.get("alone", ())]
        return [*alone, *(item for form in self.each for item in form.looked_at)]


def _place(check: CheckRow) -> tuple[int, int]:
    return check.item.checklist_id, check.item.place


def _said(check: CheckRow) -> str:
    return f"{check.item.text} ({(check.void or check.why).rstrip('.')})"
