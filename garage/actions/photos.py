"""Photos: kept as files first and as rows then, within what the garage and its disk can hold."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from datetime import datetime, timedelta
from typing import BinaryIO, NamedTuple
from uuid import UUID, uuid4

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.db import transaction

from garage import photo_files
from garage.actions.refused import Refused
from garage.engine.picture_sizes import MOST_BYTES
from garage.large_pictures import opened
from garage.models import Garage, Membership, Photo
from garage.models.photo import PhotoTie

MB = 1024**2
# A file that is younger may belong to a photo whose row is just being written.
YOUNG = timedelta(days=1)


class StrayFiles(NamedTuple):
    """Files on the disk that no row names yet."""

    name: UUID
    width: int
    height: int
    bytes: int


def keep(file: BinaryIO) -> StrayFiles:
    """Read what was sent and write its sizes; slow, and so before any transaction."""
    if photo_files.free_bytes() < settings.PHOTO_DISK_FLOOR:
        raise Refused(
            "does not fit: the garage's disk has less than"
            f" {settings.PHOTO_DISK_FLOOR // MB} MB left, and the records need those"
        )
    with photo_files.alone():  # from here on it takes memory
        picture = opened(file.read(MOST_BYTES + 1))
    name = uuid4()
    photo_files.write(name, picture.files)
    size = sum(len(data) for data in picture.files.values())
    return StrayFiles(name, picture.width, picture.height, size)


def refused_words(file: UploadedFile, refused: Refused) -> str:
    return f"{(file.name or 'It')[:60]} {refused}."


@contextmanager
def kept(files: Iterable[UploadedFile]) -> Iterator[tuple[list[tuple[UploadedFile, StrayFiles]], list[str]]]:
    """The files as kept, and a sentence for each that could not be; afterwards those that no photo names are gone.

    Around the transaction that names them, never within one: decoding takes seconds.
    """
    whole: list[tuple[UploadedFile, StrayFiles]] = []
    wrong: list[str] = []
    try:
        for file in files:
            try:
                whole.append((file, keep(file)))
            except Refused as refused:
                wrong.append(refused_words(file, refused))
        yield whole, wrong
    finally:
        if whole:
            drop_unnamed([stray.name for _, stray in whole])


@transaction.atomic
def add(tie: type[PhotoTie], of: object, kept: StrayFiles, *, by: Membership, at: datetime, caption: str = "") -> Photo:
    """The rows of files that are there; whoever kept them drops them when this is refused."""
    garage = Garage.objects.select_for_update().get(pk=by.garage_id)
    most = settings.PHOTO_MOST_OF_ONE
    if tie.objects.filter(of=of).count() >= most:
        raise Refused(f"does not fit: {of} has {most} photos, which is the most")
    if Photo.objects.in_garage(garage).total_bytes() + kept.bytes > settings.PHOTO_GARAGE_BYTES:
        most = settings.PHOTO_GARAGE_BYTES // MB
        raise Refused(f"does not fit: the photos of {garage} fill {most} MB, which is the most")
    photo = Photo.objects.create(garage=garage, by=by, at=at, caption=caption, **kept._asdict())
    tie.objects.create(photo=photo, of=of)
    return photo


def drop_unnamed(names: list[UUID]) -> None:
    """Remove the files of these that no photo names: what was refused after it was kept."""
    named = set(Photo.objects.named(names).values_list("name", flat=True))
    for name in names:
        if name not in named:
            photo_files.remove(name)


@transaction.atomic
def say(photo: Photo, *, caption: str) -> None:
    photo.caption = caption
    photo.save(update_fields=["caption"])


@transaction.atomic
def delete(photo: Photo, *, by: Membership) -> None:
    """The row at once, the files when that is certain."""
    if by.role != Membership.Role.OWNER and photo.by_id != by.pk:
        raise Refused(f"Only {photo.by.name}, who added it, or the owner can delete this photo.")
    name = photo.name
    photo.delete()
    transaction.on_commit(lambda: photo_files.remove(name))


def sweep(*, at: datetime) -> tuple[int, int]:
    """Remove photos of nothing and old files that no photo names.

    Returns how many files went, and how many photos lack theirs.
    """
    removed = 0
    Photo.objects.untied().delete()
    old = list(photo_files.older_than((at - YOUNG).timestamp()))
    named = set(Photo.objects.values_list("name", flat=True))
    for file, name in old:
        if name not in named or file.suffix == ".draft":
            with suppress(FileNotFoundError):
                file.unlink()
                removed += 1
    lacking = sum(not photo_files.path(name, "large").exists() for name in named)
    return removed, lacking
