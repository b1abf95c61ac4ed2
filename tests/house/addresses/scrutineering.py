"""Addresses of scrutineering lists, and one row of each thing that they name."""

from builds.scrutineering.actions import check_lists
from builds.work.models.entry_run import EntryRun
from tests.factories import NOW, EntryFactory

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "check_list": ("entry", "READS", "read"),
    "check_make": ("entry", "WORKS", "send"),
    "check_many": ("entry", "WORKS", "form"),
    "check_page": ("check", "READS", "read"),
    "check_tick": ("check", "WORKS", "send"),
    "check_undo": ("check", "WORKS", "send"),
    "check_fail": ("check", "WORKS", "form"),
    "check_leave_out": ("check", "WORKS", "form"),
    "check_has": ("vehicle", "WORKS", "form"),
    "organiser_list": ("", "READS_OWN", "read"),
    "organiser_add": ("", "ARRANGES_OWN", "form"),
    "organiser_edit": ("organiser", "ARRANGES", "form"),
    "organiser_delete": ("organiser", "ARRANGES", "send"),
    "run_first_session": ("entry", "WORKS", "send"),
    "run_none": ("entry", "WORKS", "send"),
    "run_not": ("ran", "WORKS", "send"),
    "run_strip_down": ("event", "WORKS", "form"),
}


def rows(cast):
    entry = EntryFactory(event__garage=cast.garage)
    checklist = check_lists.make(entry, by=cast.owner, at=NOW)
    organiser = check_lists.keep_organiser(
        cast.garage, at=NOW, name="Kiln Lane Club", text="Doors shut", with_shipped=True
    )
    EntryRun.objects.create(entry=entry, at=NOW, by=cast.owner)
    return {
        "check": checklist.items.first().pk,
        "organiser": organiser.pk,
        "ran": entry.pk,
    }
