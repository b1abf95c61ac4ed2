"""Rows of a sheet: what is wrong with each, mended in place, doubles among them."""

import pytest

from parts.actions import stock
from parts.actions.places import car_place, house_place
from parts.models import Balance, BatchRow
from tests.factories import NOW, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
HEAD = "name,number,quantity,place,cost,condition\n"
FILLS = "A sheet fills shelves, bins and vans"


def problems(batch):
    return {row.line: row.problems for row in BatchRow.objects.of(batch).bad()}


def held():
    rows = Balance.objects.filter(outside=False, quantity__gt=0).select_related("part", "place")
    return {(row.part.name, row.place.name): row.quantity for row in rows}


def received(cast, part, place, quantity=1):
    supplier = house_place(cast.garage, "supplier")
    stock.move(part, "receive", quantity, supplier, place, by=cast.owner, at=NOW)


@pytest.mark.parametrize(
    ("row", "problem"),
    [
        (",1,1,Shelf,1,new", ["name", "Every part needs a name."]),
        ("x" * 121 + ",,1,Shelf,,", ["name", "It has 121 characters; 120 is the most."]),
        ("Hub,,-1,Shelf,,", ["quantity", "Write a whole number of zero or more, not “-1”."]),
        ("Hub,,1.5,Shelf,,", ["quantity", "Write a whole number of zero or more, not “1.5”."]),
        ("Hub,,NaN,Shelf,,", ["quantity", "Write a whole number of zero or more, not “NaN”."]),
        ("Hub,,9999999999,Shelf,,", ["quantity", "It is more than a thousand million."]),
        ("Hub,,,Shelf,,", ["quantity", "How many are there? Write 0 for none."]),
        ("Hub,,3,,,", ["place", "Where does it lie?"]),
        ("Hub,,3,Shelf,1.234,", ["cost", "Write an amount such as 12 or 12.50."]),
        (
            "Hub,,3,Shelf,,fine",
            ["condition", "Write new, good, unknown, repair or scrap, not “fine”."],
        ),
        ("Hub,,3,Heron,,", ["place", f"{FILLS}: move it to Heron by hand."]),
    ],
)  # fmt: skip
def test_what_is_wrong_with_a_row_is_said_at_its_column(bring, cast, row, problem):
    car_place(VehicleFactory(garage=cast.garage, name="Heron"))
    assert problems(bring(HEAD + row + "\n")) == {2: [problem]}


def test_the_same_part_and_place_twice_in_a_file(bring):
    batch = bring(HEAD + "Hub,1,1,Shelf,,\nHub,2,1,Shelf,,\nHub,1,2,shelf,,\n")
    assert problems(batch) == {4: [["name", "Row 2 has the same part in the same place."]]}


@pytest.mark.parametrize(
    ("head", "row", "problem"),
    [
        ("kind", "one of a kind", ["quantity", "It is one of a kind: there cannot be two."]),
        ("unit", "ml", ["unit", "It was moved already: its unit stays."]),
        ("code", "ABC", ["code", "Our codes have ten letters and figures, without I, O, 0 and 1."]),
        ("systems", "wings", ["systems", "No system is called “wings”."]),
    ],
)
def test_what_the_shelf_itself_would_refuse(bring, cast, head, row, problem):
    part = PartFactory(garage=cast.garage, name="Nut")
    received(cast, part, PlaceFactory(garage=cast.garage, name="Bin 1"), 3)
    batch = bring(f"name,quantity,place,{head}\nNut,3,Bin 1,{row}\n")
    assert problems(batch) == {2: [problem]}


def test_rows_of_one_part_agree_but_for_place_and_quantity(bring, cast):
    code = "ABCDEFGHJK"
    head = "code,name,quantity,place,condition\n"
    rows = f"{code},Nut,3,Bin 1,new\n{code},Nut,2,Bin 2,new\n{code},Nut,1,Bin 3,good\n"
    assert problems(bring(head + rows)) == {4: [["condition", "Row 2 says otherwise of the same part."]]}


def test_a_place_with_two_of_its_name_wants_its_code(bring, cast):
    shelf = PlaceFactory(garage=cast.garage, name="Door")
    PlaceFactory(garage=cast.garage, name="door", kind="bin")
    batch = bring(f"name,quantity,place\nNut,1,DOOR\nPin,1,Door\nClip,1,{shelf.code}\n")
    [(line, [(column, why)])] = problems(batch).items()
    assert (line, column, why[:28]) == (2, "place", "2 places are called so: writ")


def test_a_bad_row_is_mended_in_place_and_leads_to_the_next(bring, write, owner):
    batch = bring(HEAD + "Nut,,one,Bin 1,,\nPin,,two,Bin 1,,\nClip,,3,Bin 1,,\n")
    first, second = BatchRow.objects.of(batch).bad()
    path = f"/shelf/sheets/rows/{first.pk}/"
    still = {"name": "Nut", "quantity": "wan", "place": "Bin 1"}
    refused = owner.press(path, still)
    assert refused.status_code == 422
    assert refused.context["form"].errors["quantity"] == ["Write a whole number of zero or more, not “wan”."]
    assert 'value="wan"' in refused.content.decode()
    answer = owner.press(path, {**still, "quantity": "1"})
    assert answer["Location"] == f"/shelf/sheets/rows/{second.pk}/"
    left = owner.press(f"/shelf/sheets/rows/{second.pk}/drop/")
    assert left["Location"] == f"/shelf/sheets/{batch.pk}/"
    batch.refresh_from_db()
    assert (batch.tally, batch.total) == ({"new": 2}, 2)
    write(batch)
    assert held() == {("Nut", "Bin 1"): 1, ("Clip", "Bin 1"): 3}


def test_a_mended_row_frees_the_one_that_it_was_a_double_of(bring, owner):
    batch = bring(HEAD + "Nut,,1,Bin 1,,\nNut,,2,Bin 1,,\n")
    first = BatchRow.objects.of(batch).first()
    owner.press(f"/shelf/sheets/rows/{first.pk}/", {"name": "Bolt", "quantity": 1, "place": "Bin 1"})
    batch.refresh_from_db()
    assert batch.tally == {"new": 2}


def test_a_row_mended_into_a_double_is_refused(bring, owner):
    batch = bring(HEAD + "Nut,,1,Bin 1,,\nBolt,,2,Bin 1,,\n")
    last = BatchRow.objects.of(batch).last()
    said = {"name": "Nut", "quantity": 2, "place": "Bin 1"}
    answer = owner.press(f"/shelf/sheets/rows/{last.pk}/", said)
    assert answer.context["form"].errors["name"] == ["Row 2 has the same part in the same place."]


def test_a_sheet_says_who_found_a_part_in_another_condition(bring, write, cast):
    part = PartFactory(garage=cast.garage, name="Caliper", condition="good")
    write(bring(f"code,condition\n{part.code},scrap\n"))
    part.refresh_from_db()
    assert (part.condition, part.condition_by, part.condition_at) == ("scrap", cast.owner, NOW)
