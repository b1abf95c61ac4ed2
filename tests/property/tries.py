"""How many cases a property is tried on where the profile's own number does not fit."""

from hypothesis import settings

# A profile says how many cases of a hundred are tried: fifty in `make test`, many times a hundred in a hunt.
HUNDRED = 100


def tries(count: int, **more: int) -> settings:
    """Of so many cases half in `make test`, and as many times more in a hunt as the hunt's profile has."""
    return settings(max_examples=count * settings.default.max_examples // HUNDRED, **more)
