"""The demo garage's scrutineering list is half ticked with one item failed; its van half packed."""

import pytest

from builds.packing.pages.pack_list import pack_view
from builds.scrutineering.pages.check_list import entry_checks
from garage.models import Entry, Event
from tests.factories import NOW


@pytest.fixture
def entry(demo):
    return Entry.objects.in_garage(demo).get(vehicle__name="Moth", event__name="Kiln Lane Autocross")


def test_a_list_is_half_ticked_with_one_item_failed(entry):
    main = entry_checks(entry, NOW).main
    assert 0.3 < main.done / main.of < 0.7
    assert main.failed == 1
    assert main.rows[0].item.section
    failed = next(row for row in main.rows if row.failed)
    assert failed.job.title == "Extinguisher bracket is loose" and failed.job_open
    assert all(row.item.at is None or row.item.at < NOW for row in main.rows)


def test_the_organisers_own_lines_are_in_it(entry):
    texts = {row.item.text: row.item.section for row in entry_checks(entry, NOW).main.rows}
    assert texts["Second throttle spring fitted"] == "Car"


def test_a_pack_list_has_tools_spares_and_own_lines_and_some_is_packed(entry):
    view = pack_view(Event.objects.get(pk=entry.event_id))
    assert {section.slug for section in view.sections} >= {
        "papers", "gear", "tools", "spares", "consumables", "own",
    }  # fmt: skip
    assert 0 < view.done < view.of
