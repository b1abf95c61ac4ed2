"""Whether what somebody wrote says something to whoever reads it next, and nothing against what it stands beside."""

from garage.engine.systems_said import fault_said

LEAST_LETTERS = 6
"""A reason of fewer letters says nothing to somebody else; our own choice, no source."""
SAY_WHY = "Say why in words: the next who reads it has to understand it."


def says_why(reason: str) -> bool:
    """Whether a reason has letters enough to say something; `SAY_WHY` is what is said of one that has not."""
    return sum(letter.isalpha() for letter in reason) >= LEAST_LETTERS


FAULTY = "“{}” says that something is wrong: write that down as found, and here only what is as it must be."


def refuse_faulty(words: str) -> str | None:
    """Why these words do not stand beside a signature, a tick or a torque: they say that something is wrong."""
    return FAULTY.format(words.strip()) if fault_said(words) else None


def names_something(text: str) -> bool:
    """Whether there is a letter or a figure in it: a dot names no tool and nobody."""
    return any(sign.isalnum() for sign in text)
