"""What a garage holds of one person, given out in one zip: who he is here, and every row that names him."""

from datetime import datetime
from typing import Any, BinaryIO

from django.conf import settings
from django.db import models

from garage.actions.export_garage import drafted
from garage.actions.open_tables import write_photos, write_table
from garage.backup_file import BackupWriter
from garage.engine.open_files.person import BY_WAY_OF, NOT_GIVEN
from garage.facts.books import Books
from garage.facts.garage_rows import MEMBERSHIP, PERSON, open_columns
from garage.models import Membership
from garage.still import still

README = "README.txt"
HEAD = """What {garage} holds of {name}, at {at:%Y-%m-%d %H:%M} UTC.

json/ and csv/ hold the same rows, a table a file; photos/ the pictures that {name} added. A column that ends in _id
holds the number of a row elsewhere; {name} is number {member} here (by, member, signed by, ...). What others wrote in
their own words, in notes and chats, is not searched. Passwords and links are not given out.

"""


def person_data(whose: Membership, *, at: datetime) -> BinaryIO:
    """As an open file that has no name any more. Raises Refused."""
    with drafted(settings.DATA_DIR, at) as draft:
        with draft.open("xb") as out, BackupWriter(out, at) as writer:
            with still(at) as using:
                known = Books(using, without=NOT_GIVEN).models
                rows = {table: _rows(model, using, whose) for table, model in known.items()}
                told = {
                    table: write_table(writer, open_columns(known[table], emails=True), his, at)
                    for table, his in rows.items()
                    if his is not None and his.exists()
                }
                names = list(
                    known["garage_photo"]._base_manager.using(using).filter(by=whose.pk).values_list("name", flat=True)
                )
            write_photos(writer, names)
            head = HEAD.format(garage=whose.garage, name=whose.name, at=at, member=whose.pk)
            lines = [f"{table}: {entry.rows}\n" for table, entry in told.items()]
            writer.add(README, [head.encode(), "".join(lines).encode()])
        return draft.open("rb")


def _rows(model: type[models.Model], using: str, whose: Membership) -> models.QuerySet[Any] | None:
    """Those that name him, if a table can."""
    table, rows = model._meta.db_table, model._base_manager.using(using)
    if table == PERSON:
        return rows.filter(pk=whose.person_id)
    if table == MEMBERSHIP:
        return rows.filter(pk=whose.pk)
    if table in BY_WAY_OF:
        return rows.filter(**{BY_WAY_OF[table]: whose.pk})
    names = [field.name for field in model._meta.local_concrete_fields if _leads_to_members(field)]
    return rows.filter(models.Q(*((name, whose.pk) for name in names), _connector=models.Q.OR)) if names else None


def _leads_to_members(field: models.Field[Any, Any]) -> bool:
    return bool(field.remote_field) and field.related_model._meta.db_table == MEMBERSHIP
