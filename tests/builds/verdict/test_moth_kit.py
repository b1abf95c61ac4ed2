"""The car that is fit: its list ticked in one go is as taps leave it."""

from datetime import timedelta

import pytest
from django.db import transaction

from builds.scrutineering.models.check import CheckItem, CheckLog
from tests.builds.verdict.moth_kit import tick_again, tick_all
from tests.factories import NOW

LATER = NOW + timedelta(hours=2)


def left():
    """Each item as it stands, and the lines of its log with the moment of the line that they answer."""
    lines = CheckLog.objects.order_by("pk").values_list("item", "step", "answers__at", "by", "at", "arrived_at", "note")
    return list(CheckItem.objects.values("pk", "state", "by", "at", "note")), sorted(lines, key=lambda line: line[0])


@pytest.mark.parametrize("stood", ["open", "ticked"])
def test_a_list_ticked_in_one_go_is_as_taps_leave_it(moth, stood):
    cast, _ = moth
    if stood == "open":
        CheckLog.objects.all().delete()
        CheckItem.objects.update(state="open", by=None, at=None)
    with transaction.atomic():
        for item in CheckItem.objects.all():
            tick_again(item, cast, LATER)
        tapped = left()
        transaction.set_rollback(True)
    tick_all(cast, LATER)
    assert left() == tapped
    assert CheckItem.objects.filter(state="ticked", at=LATER).count() == len(tapped[0]) > 20
