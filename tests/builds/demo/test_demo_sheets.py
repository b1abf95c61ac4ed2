"""The demo's sheets: the setup of each car on one page, and no last page that is nearly empty."""

from builds.packing.pages.sheet import pack_sheet_rows
from builds.packing.sheet import pack_sheet
from builds.paper.pages.checklist import checklist_rows
from builds.paper.pages.setup_sheet import setup_sheet_rows
from builds.paper.sheets.checklist import checklist
from builds.paper.sheets.setup import setup_sheet
from garage.models import Entry, Event, Vehicle
from tests.factories import NOW
from tests.paper.rendering import over_each_other, placed_words


def test_every_car_is_set_up_by_one_page(demo, tmp_path):
    for car in Vehicle.objects.filter(garage=demo):
        pages = placed_words(setup_sheet(setup_sheet_rows(car, NOW)), tmp_path)
        assert [over_each_other(page) for page in pages] == [[]], car


def test_no_last_page_is_nearly_empty(demo, tmp_path):
    sheets = [checklist(checklist_rows(entry, NOW)) for entry in Entry.objects.filter(event__garage=demo)]
    sheets += [pack_sheet(pack_sheet_rows(event, NOW)) for event in Event.objects.filter(garage=demo)]
    for number, data in enumerate(sheets):
        pages = placed_words(data, tmp_path)
        assert [over_each_other(page) for page in pages] == [[]] * len(pages)
        if len(pages) > 1:
            # Below the head of 28 mm and above the foot of 20 mm: how far down the last words stand.
            lowest = max(word.bottom for word in pages[-1] if word.bottom < 785)
            assert lowest > 28 / 25.4 * 72 + 0.2 * 700, number
