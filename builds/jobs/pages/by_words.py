"""What was taken from the words of a job alone, said so that it can be changed."""

from builds.readings.engine import READINGS
from builds.steps.engine.by_words import sentences
from builds.steps.facts.by_words import ToldByWords

CHANGE_IT = "Change what is not so; its finish asks again."


def told_words(told: ToldByWords | None) -> str:
    """Sentences that follow another, or nothing: what its words say, and the skill that this wants."""
    said = by_words_sentences(told) if told else ()
    return f" {' '.join(said)} {CHANGE_IT}" if said else ""


def by_words_sentences(told: ToldByWords) -> tuple[str, ...]:
    names = [READINGS[slug].label for slug in told.said.measures]
    return sentences(told.said, names, str(told.skill) if told.skill else "")
