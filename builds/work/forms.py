"""The three figures of how long work takes, as every form that asks for them reads them."""

from django import forms

from builds.work.engine.work_left import around
from builds.work.models.job import MOST_MINUTES
from garage.engine.words import work_words

FIGURES = ("low", "likely", "high")


def figures_in_order(form: forms.Form, names: tuple[str, str, str] = FIGURES) -> None:
    """Fill in the outer figures from the likely one; say at the field where they run backwards."""
    low, likely, high = (form.cleaned_data.get(name) for name in names)
    if likely is None:
        return
    lower, _, higher = around(likely, MOST_MINUTES)
    low = lower if low is None else low
    high = higher if high is None else high
    form.cleaned_data.update({names[0]: low, names[2]: high})
    if low > likely:
        said = f"If it goes well it takes no longer than the likely {work_words(likely)}."
        form.add_error(names[0], said)
    if high < likely:
        said = f"If it fights back it takes no less than the likely {work_words(likely)}."
        form.add_error(names[2], said)
