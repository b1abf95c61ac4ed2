"""Short names for rows that recipes and plan files refer to."""

from typing import Any

from django.utils.text import slugify


def free_slug(name: str, rows: Any) -> str:
    """A slug of the name that none of `rows` has yet."""
    base = slugify(name)[:34] or "one"
    taken = set(rows.filter(slug__startswith=base).values_list("slug", flat=True))
    if base not in taken:
        return base
    return next(f"{base}-{number}" for number in range(2, 10_000) if f"{base}-{number}" not in taken)
