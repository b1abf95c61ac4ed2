"""A field for the systems of a car that something touches or belongs to."""

from typing import Any

from garage.engine.systems import SYSTEMS
from garage.forms.choices import TicksField


class SystemsField(TicksField):
    """Their slugs; none is an answer."""

    def __init__(self, **kwargs: Any) -> None:
        choices = [(slug, system.label) for slug, system in SYSTEMS.items()]
        super().__init__(choices=choices, short=True, **kwargs)
