"""A write is taken from whoever wrote it, and from nobody who signed in since; it is small."""

from urllib.parse import urlencode

import pytest

from builds.scrutineering.actions import check_lists
from builds.scrutineering.models.check import CheckItem
from garage.member_mark import mark_of
from tests.builds.paddock.paddock_kit import write
from tests.factories import NOW


@pytest.fixture
def item(cast, entry):
    check_lists.make(entry, by=cast.owner, at=NOW)
    return CheckItem.objects.first()


def test_what_another_wrote_is_not_taken_from_whoever_signed_in_since(owner, helper, cast, entry, item):
    name = f"check-{item.pk}"
    answer = write(owner, entry, name, "ticked", member=mark_of(cast.helper))
    assert answer.status_code == 409 and not item.log.exists()
    write(helper, entry, name, "ticked", member=mark_of(cast.helper))
    assert item.log.get().by == cast.helper


def test_whoever_only_looks_by_now_is_told_so_in_words(viewer, entry, item):
    answer = write(viewer, entry, f"check-{item.pk}", "ticked")
    assert answer.status_code == 422 and answer.json()["told"].startswith("You can look, but not change")
    assert not item.log.exists()


def test_the_longest_write_that_is_taken_is_two_thousand_bytes_at_most_as_it_is_sent(helper, cast, entry, item):
    """What the form takes at its longest, in letters with an accent, which are sent as six bytes each."""
    longest = {"item": f"check-{item.pk}", "to": "failed", "value": "é" * 60, "note": "é" * 200, "seen": 10**9}
    answer = write(helper, entry, longest["item"], "failed", seen=10**9, value=longest["value"], note=longest["note"])
    assert answer.status_code == 200
    usual = {**longest, "value": "98", "note": "Wheel nut loose, front left", "seen": 3}
    beside = {"at": NOW.isoformat(), "member": mark_of(cast.helper), "csrfmiddlewaretoken": "x" * 64}
    key = "Idempotency-Key: 01234567-89ab-cdef-0123-456789abcdef"
    assert len(urlencode(usual | beside)) + len(key) <= 500
    assert len(urlencode(longest | beside)) + len(key) <= 2000
