"""Open files read as somebody else might read them, and made equal but for the numbers of their rows."""

import json
import zipfile
from hashlib import sha256
from itertools import count

from django.apps import apps

from builds.calendar.models import CalendarFeed
from builds.needs.models import Need, PartOffer
from builds.packing.actions import make as make_pack_list
from builds.readings.models.reading import OwnKind
from builds.readings.models.target import RequiredReadings
from builds.work.models.job import Job
from garage.actions import journal, shares, visits
from garage.engine.open_files.renumber import WITHIN
from garage.models import Event, Garage, Membership, Photo, Visit
from tests.factories import NOW, GarageFactory, JobFactory, MembershipFactory, VehicleFactory
from tests.garage.backup.zips import entries, zipped
from tests.pictures import corners, encoded

MINE = "Quayside Lock-up"


def more_to_take_along(home):
    """Links and lists that name rows by their number, and another garage behind the wall."""
    garage, owner = Garage.objects.get(), Membership.objects.owners().get()
    for photo in Photo.objects.all():  # as large as their rows say
        for file in home.photos.rglob(f"{photo.name.hex}-*.jpg"):
            file.write_bytes(encoded(corners(8 + photo.pk), "JPEG"))
    other = MembershipFactory(garage=GarageFactory(name="Behind the Wall"), person__name="Walled-in", role="owner")
    JobFactory(vehicle=VehicleFactory(garage=other.garage, name="Hidden Coupe"), title="Nobody reads this")
    event = Event.objects.first()
    share, _ = shares.make(by=owner, at=NOW, days=3, event=event, photos=[Photo.objects.first().pk])
    PartOffer.objects.create(share=share, need=Need.objects.first(), name="Ravi", line="One", key="k", said_at=NOW)
    link, _ = visits.make(by=owner, of=owner, days=3, at=NOW)
    Visit.objects.create(link=link, day=NOW, from_minute=1080, until_minute=1200, said_at=NOW)
    CalendarFeed.objects.create(member=owner, whole=True, digest="f" * 64, tail="feed", made_at=NOW, changed_at=NOW)
    make_pack_list(event, by=owner, at=NOW)
    about = [f"/jobs/{Job.objects.in_garage(garage).last().pk}/edit/", "/jobs/999999/"]
    journal.write(garage, by=owner, act="job_edit", paths=about, said=f"“Seat of {owner}” is changed.", at=NOW)
    kind = OwnKind.objects.create(garage=garage, name="Seat height", unit="mm")
    required = RequiredReadings.objects.first()
    required.kinds = [*required.kinds, kind.key]
    required.save()


def rows_of(held):
    """By table, the rows of its JSON."""
    return {
        name.removeprefix("json/").removesuffix(".json"): json.loads(data)
        for name, data in held.items()
        if name.startswith("json/")
    }


def ranked(file):
    """Each number as the how manieth of its table, each key as the how manieth of all; photos' bytes in their order."""
    held = entries(file)
    tables = rows_of(held)
    ranks = {table: {row["id"]: place for place, row in enumerate(rows)} for table, rows in tables.items()}
    keys, drawn = {}, count()
    for model in apps.get_models(include_auto_created=True):
        if model._meta.db_table in tables:
            for row in tables[model._meta.db_table]:
                _rank(model, row, ranks, lambda key: keys.setdefault(key, next(drawn)))
    photos = {
        (keys[uuid_of(name)], name.rpartition("-")[2]): data
        for name, data in held.items()
        if name.startswith("photos/")
    }
    return tables, photos


def uuid_of(name):
    bare = name.rpartition("/")[2][:32]
    return "-".join((bare[:8], bare[8:12], bare[12:16], bare[16:20], bare[20:]))


def _rank(model, row, ranks, key_of):
    table, was = model._meta.db_table, dict(row)
    for field in model._meta.local_concrete_fields:
        value = row.get(field.column)
        if value is None:
            continue
        if field.primary_key:
            row[field.column] = ranks[table][value]
        elif field.remote_field:
            row[field.column] = ranks[field.related_model._meta.db_table][value]
        elif field.get_internal_type() == "UUIDField":
            row[field.column] = key_of(value)
        elif within := WITHIN.get((table, field.column)):
            row[field.column] = within(value, was, lambda of, old: ranks.get(of, {}).get(old))


def sealed(held, **told):
    """The files changed, with a manifest that fits them again: as whoever means ill would hand them over."""
    manifest = json.loads(held["manifest.json"])
    for table, entry in manifest["tables"].items():
        data = held[f"json/{table}.json"]
        entry["json"] = sha256(data).hexdigest()
        entry["rows"] = data.count(b"\n") - 2
        entry["csv"] = sha256(held[f"csv/{table}.csv"]).hexdigest()
    manifest["photos"] = {
        name.removeprefix("photos/"): sha256(data).hexdigest()
        for name, data in held.items()
        if name.startswith("photos/")
    }
    return held | {"manifest.json": json.dumps(manifest | told).encode()}


def with_rows(held, table, change):
    """One table's rows as `change` makes them."""
    rows = change(json.loads(held[f"json/{table}.json"]))
    lines = ",\n".join(json.dumps(row) for row in rows)
    return held | {f"json/{table}.json": f"[\n{lines}\n]\n".encode()}


def first(**cells):
    """A change of the first row alone."""
    return lambda rows: [rows[0] | cells, *rows[1:]]


def written(held, file):
    file.write_bytes(zipped(list(held.items())).getvalue())
    return file


def everything(file):
    with zipfile.ZipFile(file) as archive:
        return b"\n".join(archive.read(name) for name in archive.namelist() if not name.startswith("photos/"))
