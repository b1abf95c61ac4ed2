"""Template tags of photos: those of one thing, or of each row of a list in one query."""

from django import template

from builds.photos.pages.subjects import photos_of, photos_within
from garage.models.photo import PhotoTie

register = template.Library()
register.simple_tag(photos_of)
register.simple_tag(photos_within)


@register.filter
def of_row(ties: dict[int, list[PhotoTie]], pk: int) -> list[PhotoTie]:
    return ties.get(pk, [])
