"""What came in open files looked through before it is let in: rows that no page of ours would have written."""

import io
from typing import Any
from zoneinfo import available_timezones

from django.apps import apps
from django.core.exceptions import ValidationError
from django.db import models
from PIL import Image

from garage.backup_file import ZipReader
from garage.engine.backup.manifest import NotWhole
from garage.engine.open_files.manifest import OpenManifest
from garage.engine.picture_sizes import SIZES
from garage.facts.garage_rows import GARAGE, GarageBooks
from garage.models import Garage, Photo

Reader = ZipReader[OpenManifest]
SORTS = (list, dict)


def see_through(using: str, reader: Reader) -> None:
    """NotWhole where it is not one garage, where a row is of none, or where one says what cannot be."""
    books = GarageBooks(using)
    garages = list(Garage.objects.using(using).values_list("pk", "time_zone"))
    if len(garages) != 1:
        raise NotWhole(f"holds {len(garages)} garages, not one")
    for table, model in books.models.items():
        if books.of(table, garages[0][0]).count() != model._base_manager.using(using).count():
            raise NotWhole(f"has a row in {table} that is of no garage")
    if garages[0][1] not in available_timezones():
        raise NotWhole(f"has a time zone in {GARAGE} that is none")
    for model in apps.get_models(include_auto_created=True):
        if model._meta.db_table in books.models:
            _look_at(using, model)
    _photos_fit(using, reader)


def _look_at(using: str, model: type[models.Model]) -> None:
    fields = [field for field in model._meta.local_concrete_fields if _asks(field)]
    rows = model._base_manager.using(using).values_list(*(field.attname for field in fields))
    for cells in rows.iterator() if fields else ():
        for field, value in zip(fields, cells, strict=True):
            try:
                if value not in (None, ""):
                    _look(field, value)
            except ValidationError as error:
                said = f"{model._meta.db_table} ({field.column})"
                raise NotWhole(f"has a row in {said} that says what cannot be") from error


def _asks(field: models.Field[Any, Any]) -> bool:
    return not field.remote_field and bool(field.choices or field.validators or isinstance(field, models.JSONField))


def _look(field: models.Field[Any, Any], value: Any) -> None:
    if field.choices and value not in dict(field.flatchoices):
        raise ValidationError("no choice")
    if isinstance(field, models.JSONField):
        if field.default in SORTS and type(value) is not field.default:
            raise ValidationError("no list, or no table")
        return
    field.run_validators(value)


def _photos_fit(using: str, reader: Reader) -> None:
    """Each file belongs to a row, and each row has its files, but those that were missing already."""
    known, held = set(), {*reader.manifest.photos, *reader.manifest.missing_photos}
    for photo in Photo.objects.using(using).order_by("pk"):
        names = [f"{photo.name.hex[:2]}/{photo.name.hex}-{size}.jpg" for size in SIZES]
        known |= set(names)
        for name in names:
            if name in reader.manifest.photos:
                _picture(name, reader.photo(name), (photo.width, photo.height))
    for name in sorted(known ^ held):
        raise NotWhole(f"lacks the photo {name}" if name in known else f"has a photo {name} that no row names")


def _picture(name: str, data: bytes, size: tuple[int, int]) -> None:
    try:
        with Image.open(io.BytesIO(data), formats=["JPEG"]) as picture:
            fits = all(side <= most for side, most in zip(picture.size, size, strict=True))
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
        raise NotWhole(f"has a photo {name} that is no picture") from error
    if not fits:
        raise NotWhole(f"has a photo {name} that is larger than its row says")
