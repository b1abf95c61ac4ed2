"""Parts: written down, looked for, changed; a label leads to the part."""

import pytest

from parts.actions import stock
from parts.actions.places import house_place
from parts.views.parts import A_PAGE
from tests.conftest import queries
from tests.factories import NOW
from tests.pages import written
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
FORM = {"name": "Front hubs", "condition": "good", "unit": "piece", "systems": ["wheels"]}


def received(cast, part, place, quantity=1):
    supplier = house_place(cast.garage, "supplier")
    stock.move(part, "receive", quantity, supplier, place, by=cast.owner, at=NOW)


def listed(client, path="/shelf/"):
    return [row.part.name for row in client.get(path).context["rows"]]


def test_its_condition_changes_its_unit_does_not_once_moved(owner, cast):
    part, shelf = (
        PartFactory(garage=cast.garage, condition="repair"),
        PlaceFactory(garage=cast.garage),
    )
    path = f"/parts/{part.pk}/edit/"
    assert owner.press(path, FORM).status_code == 303
    part.refresh_from_db()
    assert (part.name, part.condition) == ("Front hubs", "good")
    received(cast, part, shelf, 2)
    refused = owner.press(path, {**FORM, "unit": "ml"})
    assert "was moved already" in refused.context["form"].errors["unit"][0]
    refused = owner.press(path, {**FORM, "single": "on"})
    assert refused.context["form"].errors["single"] == ["There is more than one of Front hubs."]


def test_found_by_words_number_code_place_and_what_runs_low(owner, cast):
    a, b = (PlaceFactory(garage=cast.garage, name=name) for name in ("Shelf a", "Shelf b"))
    hubs = PartFactory(garage=cast.garage, name="Front hubs", number="QL-77", supplier="Mill Ltd")
    nuts = PartFactory(garage=cast.garage, name="Hub nuts", low_level=4)
    received(cast, hubs, a)
    received(cast, nuts, b, 3)
    assert listed(owner) == ["Front hubs", "Hub nuts"]
    assert listed(owner, "/shelf/?q=hub+front") == ["Front hubs"]
    assert listed(owner, "/shelf/?q=ql-77") == ["Front hubs"]
    assert listed(owner, "/shelf/?q=mill") == ["Front hubs"]
    assert listed(owner, f"/shelf/?q={nuts.code.lower()}") == ["Hub nuts"]
    assert listed(owner, f"/shelf/?place={a.pk}") == ["Front hubs"]
    assert listed(owner, "/shelf/?low=on") == ["Hub nuts"]
    assert listed(owner, "/shelf/?q=%25") == []
    assert "One part runs low" in owner.get("/shelf/").content.decode()


@pytest.mark.parametrize("query", ["?place=x", "?q=%00", "?page=99", "?place=999999", "?q=" + "a" * 500])
def test_what_cannot_be_looked_for_shows_the_shelf(owner, cast, query):
    PartFactory(garage=cast.garage, name="Front hubs")
    assert listed(owner, f"/shelf/{query}") == ["Front hubs"]


def test_a_long_shelf_has_pages_that_keep_the_search(owner, cast):
    PartFactory.create_batch(A_PAGE + 1, garage=cast.garage, name="Hub")
    body = owner.get("/shelf/?q=hub").content.decode()
    assert "q=hub&amp;page=2" in body
    assert len(listed(owner, "/shelf/?q=hub&page=2")) == 1


def test_the_shelf_is_read_by_place_in_the_order_of_the_way_round(owner, cast):
    far = PlaceFactory(garage=cast.garage, kind="bin", name="Bin 2", walk_order=9)
    near = PlaceFactory(garage=cast.garage, kind="bin", name="Bin 1", walk_order=1)
    for name, place in [("Axle", far), ("Bolt", near), ("Cap", far)]:
        received(cast, PartFactory(garage=cast.garage, name=name), place)
    PartFactory(garage=cast.garage, name="Dust cap")
    page = owner.get("/shelf/")
    groups = [(group.place, [row.part.name for row in group.rows]) for group in page.context["places"]]
    assert groups == [("Bin 1", ["Bolt"]), ("Bin 2", ["Axle", "Cap"]), ("", ["Dust cap"])]
    body = written(page.content.decode())
    assert "<summary>Bin 2: 2</summary>" in body and "<summary>Nowhere yet: 1</summary>" in body


def test_a_letter_leads_to_the_parts_under_it(owner, cast):
    for name in ("axle", "Arm", "Bolt", "ölfilter"):
        PartFactory(garage=cast.garage, name=name)
    assert owner.get("/shelf/").context["letters"][:2] == ["A", "B"]
    assert sorted(listed(owner, "/shelf/?letter=A")) == ["Arm", "axle"]
    assert listed(owner, "/shelf/?letter=B") == ["Bolt"]
    assert listed(owner, "/shelf/?letter=%25") == []
    assert len(listed(owner, "/shelf/?letter=%00")) == 4
    assert owner.get("/shelf/?letter=A").context["places"] == []


def test_a_label_leads_to_its_part_in_any_case_of_letters(owner, stranger, cast):
    part = PartFactory(garage=cast.garage)
    assert owner.get(f"/c/{part.code.lower()}/")["Location"] == f"/parts/{part.pk}/"
    assert owner.get("/c/NOSUCHCODE/").status_code == 404
    assert stranger.get(f"/c/{part.code}/").status_code == 404


def test_a_label_scanned_before_signing_in_is_where_one_lands(cast):
    part = PartFactory(garage=cast.garage)
    answer = cast.client("nobody").get(f"/c/{part.code}/")
    assert answer["Location"] == f"/sign-in/?next=%2Fc%2F{part.code}%2F"


def test_who_may(cast):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in wanted.items():
        part = PartFactory(garage=cast.garage)
        assert cast.client(who).press(f"/parts/{part.pk}/edit/", FORM).status_code == status


def test_nobody_sees_another_garages_shelf(stranger, cast):
    PartFactory(garage=cast.garage)
    assert listed(stranger) == []


def test_markup_in_a_part_is_shown_as_typed(owner, cast):
    part = PartFactory(garage=cast.garage, name="<b>hub</b>", note="<i>n</i>")
    for path in ("/shelf/", f"/parts/{part.pk}/", f"/parts/{part.pk}/edit/"):
        body = owner.get(path).content.decode()
        assert "&lt;b&gt;hub&lt;/b&gt;" in body and "<b>hub</b>" not in body


def test_as_many_queries_for_fifty_as_for_one(owner, cast):
    shelf, bin_ = PlaceFactory(garage=cast.garage), PlaceFactory(garage=cast.garage)
    received(cast, PartFactory(garage=cast.garage), shelf)
    first = queries(owner, "/shelf/"), queries(owner, f"/places/{shelf.pk}/")
    for part in PartFactory.create_batch(40, garage=cast.garage):
        received(cast, part, shelf)
        received(cast, part, bin_)
    assert (queries(owner, "/shelf/"), queries(owner, f"/places/{shelf.pk}/")) == first
