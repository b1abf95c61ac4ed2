"""Whether what somebody wrote says something to whoever reads it next."""

LEAST_LETTERS = 6
"""A reason of fewer letters says nothing to somebody else; our own choice, no source."""
SAY_WHY = "Say why in words: the next who reads it has to understand it."


def says_why(reason: str) -> bool:
    """Whether a reason has letters enough to say something; `SAY_WHY` is what is said of one that has not."""
    return sum(letter.isalpha() for letter in reason) >= LEAST_LETTERS


def names_something(text: str) -> bool:
    """Whether there is a letter or a figure in it: a dot names no tool and nobody."""
    return any(sign.isalnum() for sign in text)
