"""A page as a reader sees it: how its templates break their lines does not count."""

import re


def written(html: str) -> str:
    """The HTML with no white space round its tags, and single spaces elsewhere."""
    return re.sub(r"\s*(<[^>]+>)\s*", r"\1", re.sub(r"\s+", " ", html))


def words(html: str) -> str:
    """The words alone, a space where tags stood."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html))
