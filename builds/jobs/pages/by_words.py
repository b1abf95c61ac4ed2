"""What was taken from the words of a job alone, said so that it can be changed."""

from collections.abc import Iterable

from garage.engine.systems import SYSTEM_LABELS
from garage.engine.words import listed_in_words


def touched_words(systems: Iterable[str]) -> str:
    """A sentence that follows another, or nothing: what its title says it touches (slugs)."""
    labels = [SYSTEM_LABELS[slug].lower() for slug in systems]
    if not labels:
        return ""
    return f" By its words it touches {listed_in_words(labels)}: edit it where that is not so."
