"""The page that chooses labels, and the file: who may, what is refused, how many at most."""

import pytest

from parts.actions import stock
from parts.actions.places import house_place
from tests.conftest import queries
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory
from tests.pdf import answered


@pytest.fixture
def shelf(cast, now):
    class Shelf:
        place = PlaceFactory(garage=cast.garage, name="Shelf B", code="7Q2M9XKD4T")
        hub = PartFactory(garage=cast.garage, name="Hub, left", code="WH4T7PQK22")
        nuts = PartFactory(garage=cast.garage, name="Nyloc M8", code="WH4T7PQK23")
        elsewhere = PartFactory(garage=cast.garage, name="Radiator", code="WH4T7PQK24")
        foreign = PartFactory(name="Foreign", code="WH4T7PQK25")

    source = house_place(cast.garage, "supplier")
    for part in (Shelf.hub, Shelf.nuts):
        stock.move(part, "receive", 2, source, Shelf.place, by=cast.owner, at=NOW)
    return Shelf


def test_a_place_with_all_that_is_in_it(viewer, shelf):
    (text,) = answered(viewer.get(f"/labels/sheet.pdf?whole={shelf.place.pk}"))
    for said in ("Shelf B", "7Q2M9XKD4T", "Hub, left", "WH4T7PQK22", "WH4T7PQK23"):
        assert said in text
    assert "WH4T7PQK24" not in text


def test_chosen_places_and_parts_each_once(viewer, shelf):
    asked = {"whole": shelf.place.pk, "s": shelf.place.pk, "p": [shelf.hub.pk, shelf.elsewhere.pk]}
    (text,) = answered(viewer.get("/labels/sheet.pdf", asked))
    codes = ("7Q2M9XKD4T", "WH4T7PQK22", "WH4T7PQK23", "WH4T7PQK24")
    assert [text.count(code) for code in codes] == [1, 1, 1, 1]


def test_the_start_may_lie_on_a_half_used_sheet(viewer, shelf):
    asked = {"p": [shelf.hub.pk, shelf.nuts.pk], "sheet": "a4-21", "start": 21}
    assert len(answered(viewer.get("/labels/sheet.pdf", asked))) == 2


def test_the_sheet_is_the_garages_paper_unless_chosen(viewer, cast, shelf):
    cast.garage.paper = "letter"
    cast.garage.save()
    assert b"612 792" in viewer.get("/labels/sheet.pdf", {"p": shelf.hub.pk}).content
    (text,) = answered(viewer.get("/labels/sheet.pdf", {"test": "on", "sheet": "letter-30"}))
    assert "30 labels" in text


@pytest.mark.parametrize(
    "asked, sentence",
    [
        ({}, "Choose at least one place or part."),
        ({"start": "11"}, "This sheet has labels 1 to 10."),
        ({"start": "0"}, "greater than or equal to 1"),
        ({"start": "NaN"}, "Enter a whole number."),
        ({"right": "NaN"}, "Shift right:"),
        ({"down": "10"}, "It must lie between -9 mm and 9 mm."),
        ({"sheet": "a9"}, "a9 is not one of the available choices"),
        ({"p": "abc"}, "Tick what is in the list."),
        ({"p": "9" * 30}, "Tick what is in the list."),
        ({"s": "１２"}, "Tick what is in the list."),
        ({"whole": "9" * 30}, "Select a valid choice."),
        ({"whole": "\x00"}, "Null characters are not allowed."),
        ({"q": "\x00"}, "Null characters are not allowed."),
        ({"q": "x" * 5000}, "at most 100 characters"),
    ],
)
def test_a_wrong_word_is_told_and_what_was_typed_is_kept(viewer, shelf, asked, sentence):
    answer = viewer.get("/labels/sheet.pdf", {"p": shelf.hub.pk, **asked} if asked else {})
    assert answer.status_code == 422
    body = answer.content.decode()
    assert sentence in body
    for name in ("start", "right", "down"):
        if name in asked:
            assert f'value="{asked[name]}"' in body


def test_a_decimal_comma_is_a_decimal_comma(viewer, shelf):
    shifted = viewer.get("/labels/sheet.pdf", {"p": shelf.hub.pk, "right": "1,5"}).content
    assert shifted == viewer.get("/labels/sheet.pdf", {"p": shelf.hub.pk, "right": "1.5"}).content
    assert shifted != viewer.get("/labels/sheet.pdf", {"p": shelf.hub.pk}).content


@pytest.mark.parametrize("name", ["p", "s", "whole"])
def test_what_is_another_garages_is_not_there(viewer, shelf, name):
    other = shelf.foreign if name == "p" else PlaceFactory(name="Foreign")
    answer = viewer.get("/labels/sheet.pdf", {name: other.pk})
    assert answer.status_code == 422
    assert "Foreign" not in answer.content.decode()


def test_a_file_holds_300_labels_and_says_so(viewer, cast, shelf):
    made = [PartFactory(garage=cast.garage).pk for _ in range(300)]
    assert len(answered(viewer.get("/labels/sheet.pdf", {"p": made}))) == 30
    answer = viewer.get("/labels/sheet.pdf", {"p": made, "s": shelf.place.pk})
    assert answer.status_code == 422
    told = "That is 301 labels and a file holds 300: choose fewer at a time."
    assert told in answer.content.decode()


def test_the_page_offers_what_matches_and_keeps_what_is_ticked(viewer, shelf):
    body = viewer.get("/labels/", {"q": "radiator", "p": shelf.hub.pk}).content.decode()
    assert "Radiator" in body and "Hub, left" in body and "Nyloc" not in body
    assert body.count(" checked") == 1
    assert "to put right" not in body


def test_the_page_stands_up_to_garbage(viewer, shelf):
    for asked in ({"p": "\x00"}, {"q": "\x00"}, {"start": "x"}, {"whole": "-1"}, {"sheet": "x"}):
        assert viewer.get("/labels/", asked).status_code == 200


def test_names_are_shown_as_text(viewer, cast, shelf):
    PartFactory(garage=cast.garage, name="<script>alert(1)</script>")
    body = viewer.get("/labels/").content.decode()
    assert "&lt;script&gt;alert(1)" in body and "<script>alert(1)" not in body


def test_an_empty_shelf_has_nothing_to_choose(stranger, shelf):
    body = stranger.get("/labels/").content.decode()
    assert "No part on the shelf matches." in body and "Hub" not in body


def test_a_code_on_a_label_leads_to_its_page(viewer, shelf):
    answer = viewer.get(f"/c/{shelf.hub.code}/")
    assert (answer.status_code, answer["Location"]) == (303, f"/parts/{shelf.hub.pk}/")


def test_as_many_queries_for_many_as_for_one(viewer, cast, shelf):
    one = f"/labels/sheet.pdf?whole={shelf.place.pk}&p={shelf.hub.pk}"
    first = queries(viewer, one), queries(viewer, "/labels/")
    made = [PartFactory(garage=cast.garage).pk for _ in range(30)]
    more = one + "".join(f"&p={pk}" for pk in made)
    assert (queries(viewer, more), queries(viewer, "/labels/")) == first
