"""The one place where the project asks what time it is."""

from datetime import datetime

from django.utils import timezone


def now() -> datetime:
    return timezone.now()
