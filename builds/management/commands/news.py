"""Send the news by mail that is due; the worker does so by itself."""

from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from builds.news.tasks import send_due
from garage import clock


class Command(BaseCommand):
    help = "Send the news by mail to those who asked for it, where anything changed."

    def handle(self, *args: Any, **options: Any) -> None:
        if not settings.SENDS_MAIL:
            raise CommandError("No mail is sent from here: set MAIL_HOST and MAIL_FROM.")
        sent = send_due(at=clock.now())
        self.stdout.write(f"{sent} mail{'s' * (sent != 1)} sent.")
