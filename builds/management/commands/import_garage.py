"""Bring a garage's open files into this server, beside the garages that live here."""

import time
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.urls import reverse

from garage import clock
from garage.actions import sign_in
from garage.actions.import_garage import import_garage
from garage.actions.refused import Refused
from garage.logs import note
from garage.models import Membership
from garage.public import public
from parts.actions.snapshot import proof


class Command(BaseCommand):
    help = __doc__

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="as `manage.py export_garage` or the owner's button wrote it")

    def handle(self, *args: Any, file: Path, **options: Any) -> None:
        began, at = time.monotonic(), clock.now()
        try:
            done = import_garage(file, prove=proof, at=at)
        except Refused as refused:
            raise CommandError(str(refused)) from refused
        held = done.manifest
        note("garage imported", garage=done.garage.pk, by="command")
        self.stdout.write(
            f"{done.garage} is here, as number {done.garage.pk}: {held.rows} rows, {len(held.photos)} photo files, its"
            f" ledger adds up, {time.monotonic() - began:.1f} s."
        )
        for photo in held.missing_photos:
            self.stdout.write(f"Missing: the file of the photo {photo}, which the files lack.")
        for email in done.lost_emails:
            self.stdout.write(f"Left out: the e-mail {email}, which somebody has here already.")
        self.stdout.write("Shared links and calendars are to be made anew, and nobody has a password here yet.")
        for member in Membership.objects.in_garage(done.garage).active().owners().select_related("person"):
            token = sign_in.make_link(member.person, lasts=sign_in.LINK_FOR_ANOTHER, at=at)
            note("link made", whose=member.person_id, by="command")
            self.stdout.write(
                f"Sign in as {member}, once, within a day:\n  {public(reverse('sign_in_link', args=[token]))}"
            )
