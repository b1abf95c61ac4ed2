"""Sheets brought to the shelf: seen before they are written, all or nothing, safe to run twice."""

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from openpyxl import Workbook

from parts.actions import stock
from parts.actions.places import house_place
from parts.actions.snapshot import faults
from parts.models import Balance, Batch, BatchRow, Move, Part, Place
from tests.conftest import queries
from tests.factories import NOW
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
HEAD = "name,number,quantity,place,cost,condition\n"
FILLS = "A sheet fills shelves, bins and vans"
GOOD = HEAD + "Hub nut,0012,4,Bin 1,6.50,new\nFuel hose,,1200,Shelf A,0.02,good\n"


def held():
    rows = Balance.objects.filter(outside=False, quantity__gt=0).select_related("part", "place")
    return {(row.part.name, row.place.name): row.quantity for row in rows}


def received(cast, part, place, quantity=1):
    supplier = house_place(cast.garage, "supplier")
    stock.move(part, "receive", quantity, supplier, place, by=cast.owner, at=NOW)


def test_nothing_is_written_before_it_was_seen_then_all_of_it(bring, write, cast):
    batch = bring(GOOD)
    assert (batch.state, batch.tally) == ("checked", {"new": 2})
    assert not Part.objects.exists() and not Place.objects.exists()
    assert write(batch).state == "done"
    nut, hose = Part.objects.get(name="Hub nut"), Part.objects.get(name="Fuel hose")
    assert (nut.number, nut.cost_minor, nut.condition) == ("0012", 650, "new")
    assert (hose.number, hose.cost_minor, hose.condition) == ("", 2, "good")
    assert held() == {("Hub nut", "Bin 1"): 4, ("Fuel hose", "Shelf A"): 1200}
    assert {(move.verb, move.why) for move in Move.objects.all()} == {("receive", "from shelf.csv")}
    assert faults() == []
    assert not BatchRow.objects.exists()


def test_the_same_file_twice_adds_nothing(bring, write):
    write(bring(GOOD))
    batch = bring(GOOD)
    assert batch.tally == {"same": 2}
    write(batch)
    assert (Part.objects.count(), Move.objects.count()) == (2, 2)


@pytest.mark.parametrize("end", ["csv", "xlsx"])
def test_our_own_book_changes_nothing_and_makes_the_same_shelf_elsewhere(
    bring, write, owner, stranger, cast, end, django_capture_on_commit_callbacks
):
    texts = ["=1+1", "'71", "0012", "1E5", "+44 1234", "-12.5", "＝x", "a;b", 'q"q', "@SUM(1)"]
    shelf = PlaceFactory(garage=cast.garage, name="=Door")
    for at, text in enumerate(texts, 1):
        part = PartFactory(
            garage=cast.garage, name=text, number=text, supplier=text, provenance=text, low_level=2,
            note=f"{text}\r\n{text}", systems=["wheels", "brakes"], cost_minor=at, one_use=at == 2,
        )  # fmt: skip
        received(cast, part, shelf, at)
    received(cast, part, PlaceFactory(garage=cast.garage, name="Tug", kind="van"), 3)
    PartFactory(garage=cast.garage, name="Nowhere", single=True)
    data = owner.get(f"/shelf/book.{end}").content
    assert bring(data, f"book.{end}").tally == {"same": 12}

    batch = bring(data, f"book.{end}", client=stranger)
    assert batch.tally == {"new": 12}
    with django_capture_on_commit_callbacks(execute=True):
        stranger.press(f"/shelf/sheets/{batch.pk}/write/")
    theirs = stranger.get("/shelf/book.csv").content
    assert theirs == owner.get("/shelf/book.csv").content


def test_one_bad_row_of_a_thousand_and_nothing_is_written(bring, write, owner):
    rows = [f"Part {n},,1,Shelf A,1.00,new\n" for n in range(1000)]
    rows[998] = "Part 998,,one,Shelf A,1.00,new\n"
    batch = bring(HEAD + "".join(rows))
    assert batch.tally == {"new": 999, "bad": 1}
    body = owner.get(f"/shelf/sheets/{batch.pk}/").content.decode()
    assert "Row 1000: Part 998" in body
    assert "Write a whole number of zero or more, not “one”." in body
    assert write(batch).state == "checked"
    assert not Part.objects.exists()


def test_a_code_finds_its_part_whatever_it_is_called_now(bring, write, cast):
    part = PartFactory(garage=cast.garage, name="Old name", cost_minor=5)
    received(cast, part, PlaceFactory(garage=cast.garage, name="Bin 1"), 3)
    batch = bring(f"code,name,quantity,place\n{part.code.lower()},New name,5,Bin 1\n")
    row = BatchRow.objects.get()
    assert (row.kind, row.changes) == ("changes", ["name", "quantity"])
    write(batch)
    part.refresh_from_db()
    assert (part.name, part.cost_minor) == ("New name", 5)
    assert held() == {("New name", "Bin 1"): 5}
    move = Move.objects.first()
    assert (move.verb, move.quantity, move.source.kind) == ("count", 2, "counted")
    assert faults() == []


def test_fewer_than_the_shelf_holds_are_counted_off(bring, write, cast):
    part = PartFactory(garage=cast.garage, name="Nut")
    received(cast, part, PlaceFactory(garage=cast.garage, name="Bin 1"), 3)
    write(bring(f"code,quantity,place\n{part.code},1,Bin 1\n"))
    assert held() == {("Nut", "Bin 1"): 1}
    assert faults() == []


def test_the_shelf_that_changed_meanwhile_is_looked_at_again(bring, write, cast):
    batch = bring(GOOD)
    PartFactory(garage=cast.garage, name="Hub nut", number="0012")
    write(batch)
    assert (batch.state, batch.tally) == ("checked", {"changes": 1, "new": 1})
    assert batch.note.startswith("The shelf changed meanwhile")
    assert not Move.objects.exists()
    assert write(batch).state == "done"


def test_what_breaks_off_leaves_nothing(bring, write, monkeypatch, cast):
    batch = bring(GOOD)
    monkeypatch.setattr("parts.actions.batch_write._balances", lambda *args: (_ for _ in ()).throw(OSError))
    write(batch)
    assert (batch.state, batch.note) == (
        "checked", "It broke off; the log says why. Nothing was written.",
    )  # fmt: skip
    assert not Part.objects.exists() and not Move.objects.exists()


def test_another_file_takes_the_place_of_one_that_was_not_written(bring):
    first = bring(GOOD)
    second = bring(GOOD)
    first.refresh_from_db()
    assert (first.state, second.state) == ("left", "checked")
    assert not BatchRow.objects.of(first).exists()


def test_left_before_it_is_written(bring, owner):
    batch = bring(GOOD)
    owner.press(f"/shelf/sheets/{batch.pk}/leave/")
    batch.refresh_from_db()
    assert batch.state == "left"
    assert "Nothing of it was written" in owner.get(f"/shelf/sheets/{batch.pk}/").content.decode()
    refused = owner.press(f"/shelf/sheets/{batch.pk}/write/", follow=True)
    assert "shelf.csv is left." in refused.content.decode()


def test_looked_through_again_when_the_shelf_has_changed(bring, owner, cast, django_capture_on_commit_callbacks):
    batch = bring(GOOD)
    assert batch.tally == {"new": 2}
    PartFactory(garage=cast.garage, name="Hub nut", number="0012", cost_minor=650, condition="new")
    with django_capture_on_commit_callbacks(execute=True):
        owner.press(f"/shelf/sheets/{batch.pk}/check/")
    batch.refresh_from_db()
    assert batch.state == "checked"
    assert batch.tally.get("new") == 1


def test_a_check_that_is_stopped_or_begun_anew_ends(bring, cast):
    from parts.actions import batches

    batch = bring(GOOD)
    BatchRow.objects.update(kind="")
    Batch.objects.update(state="checking", turn=9)
    batches.check(batch, lambda: NOW)
    assert Batch.objects.get().state == "checking"
    assert not BatchRow.objects.exclude(kind="").exists()


def test_the_command_does_what_the_page_started(bring, write, cast):
    batch = bring(GOOD)
    Batch.objects.update(state="writing")
    call_command("stock_batch", batch.pk)
    assert Batch.objects.get().state == "done"
    assert held() == {("Hub nut", "Bin 1"): 4, ("Fuel hose", "Shelf A"): 1200}
    with pytest.raises(CommandError, match=f"No sheet {batch.pk} is waiting."):
        call_command("stock_batch", batch.pk)


def test_one_being_written_is_not_left_unless_whoever_wrote_is_gone(bring, owner, clock):
    batch = bring(GOOD)
    Batch.objects.update(state="writing")
    path = f"/shelf/sheets/{batch.pk}/"
    said = "shelf.csv is being written to the shelf, or is over."
    assert said in owner.press(f"{path}leave/", follow=True).content.decode()
    sheet = SimpleUploadedFile("x.csv", GOOD.encode())
    assert owner.press("/shelf/sheets/add/", {"sheet": sheet}).status_code == 422
    clock.forward(minutes=4)
    assert "Look through it again" in owner.get(path).content.decode()
    owner.press(f"{path}leave/")
    assert Batch.objects.get().state == "left"


def test_progress_is_drawn_until_it_is_over(bring, owner, clock):
    batch = bring(GOOD)
    Batch.objects.update(state="checking", done=1)
    path = f"/shelf/sheets/{batch.pk}/"
    assert 'hx-trigger="every 1s"' in owner.get(path).content.decode()
    body = owner.get(f"{path}progress/", headers={"hx-request": "true"}).content.decode()
    assert "1 of 2" in body
    clock.forward(minutes=5)
    body = owner.get(path).content.decode()
    assert "Whatever worked on it is gone" in body


def test_a_heading_is_shown_with_what_is_below_it(owner):
    data = "name,note,empty\n,x,\nHub nut," + "y" * 50 + ",\n"
    owner.press("/shelf/sheets/add/", {"sheet": SimpleUploadedFile("x.csv", data.encode())})
    form = owner.get(f"/shelf/sheets/{Batch.objects.get().pk}/columns/").context["form"]
    assert [label for _, label in form.fields["name"].choices] == [
        "not in the file", "name (such as Hub nut)", "note (such as x)", "empty",
    ]  # fmt: skip


def test_columns_of_other_names_are_said_by_hand(bring):
    data = "what,how many,lies in\nNut,3,Bin 1\n"
    batch = bring(data, columns={"name": "0", "place": "2"})
    assert batch.columns == {"name": 0, "quantity": 1, "place": 2}
    assert batch.tally == {"new": 1}


@pytest.mark.parametrize(
    ("said", "field", "sentence"),
    [
        ({"name": ""}, "name", "Say which column has what each part is."),
        ({"name": "0", "note": "0"}, "note", "That column is “What it is” already."),
        ({"name": "99"}, "name", "Select a valid choice. 99 is not one of the available choices."),
    ],
)
def test_columns_that_cannot_be(owner, said, field, sentence):
    owner.press("/shelf/sheets/add/", {"sheet": SimpleUploadedFile("x.csv", GOOD.encode())})
    batch = Batch.objects.get()
    answer = owner.press(f"/shelf/sheets/{batch.pk}/columns/", said)
    assert answer.context["form"].errors[field] == [sentence]
    assert BatchRow.objects.of(batch).filter(kind="").count() == 2


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "Line 1: the file is empty."),
        (b"PK\x03\x04 no zip", "The workbook cannot be read: save it again as XLSX, or as CSV."),
        (b"x" * 5_242_881, "The file is larger than 5 MB: split it."),
        (b"name\nHub\0\n", "Line 2: there is a NUL character in it."),
    ],
)
def test_a_file_that_cannot_be_read_says_why(owner, data, sentence):
    answer = owner.press("/shelf/sheets/add/", {"sheet": SimpleUploadedFile("x.csv", data)})
    assert answer.status_code == 422
    assert answer.context["form"].errors["sheet"] == [sentence]
    assert not Batch.objects.exists()


def test_ten_megabytes_are_refused_in_the_form_and_twenty_before_they_are_read(owner):
    ten = SimpleUploadedFile("x.csv", b"x" * 10_000_000)
    answer = owner.press("/shelf/sheets/add/", {"sheet": ten})
    assert answer.context["form"].errors["sheet"] == ["The file is larger than 5 MB: split it."]
    twenty = SimpleUploadedFile("x.csv", b"x" * 20_000_000)
    assert owner.press("/shelf/sheets/add/", {"sheet": twenty}).status_code == 413


def test_numbers_of_a_workbook_are_read_as_they_look(bring, write):
    book = Workbook()
    book.active.append(["name", "number", "quantity", "place", "cost"])
    book.active.append(["Nut", 100000.0, 4.0, "Bin 1", 12.5])
    book.active.append(["Pin", "0012", 1, "Bin 1", 0.1])
    file = io.BytesIO()
    book.save(file)
    write(bring(file.getvalue(), "shelf.xlsx"))
    found = Part.objects.order_by("name").values_list("number", "cost_minor")
    assert list(found) == [("100000", 1250), ("0012", 10)]


def test_only_the_owner_brings_sheets(cast, bring):
    batch = bring(GOOD)
    wanted = {"helper": 403, "viewer": 403, "stranger": 404}
    for who, status in wanted.items():
        assert cast.client(who).get(f"/shelf/sheets/{batch.pk}/").status_code == status
    assert cast.client("helper").get("/shelf/sheets/add/").status_code == 403


def test_markup_in_a_sheet_is_shown_as_typed(bring, owner):
    batch = bring("name,quantity,place\n<b>hub</b>,x,<i>bin</i>\n", "<u>f</u>.csv")
    row = BatchRow.objects.get()
    for path in (f"{batch.pk}/", f"{batch.pk}/columns/", f"rows/{row.pk}/"):
        body = owner.get(f"/shelf/sheets/{path}").content.decode()
        assert "<b>hub</b>" not in body and "<i>bin</i>" not in body and "<u>f" not in body


def test_as_many_queries_for_fifty_rows_as_for_one(bring, owner):
    one = queries(owner, f"/shelf/sheets/{bring(HEAD + 'Nut,,x,Bin,,').pk}/")
    rows = "".join(f"Nut {n},,x,Bin {n},,\n" for n in range(50))
    assert queries(owner, f"/shelf/sheets/{bring(HEAD + rows).pk}/") == one
