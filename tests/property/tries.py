"""How many cases a property is tried on where the profile's own number does not fit."""

from hypothesis import settings

# The profile of `make test` tries a hundred; that of a hunt many times as many.
HUNDRED = 100


def tries(count: int, **more: int) -> settings:
    """So many cases in `make test`, and as many times more in a hunt as the hunt's profile has."""
    return settings(max_examples=count * settings.default.max_examples // HUNDRED, **more)
