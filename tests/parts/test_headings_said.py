"""A spreadsheet with headings of its own: which column is what is said once."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from parts.models import Batch, Part

pytestmark = pytest.mark.usefixtures("now")
OWN = "Bezeichnung;Ort;Stk\nHub nut;Bin 1;4\n"
SAID = {"name": "0", "place": "1", "quantity": "2"}


def drawn(client, data):
    client.press("/shelf/sheets/add/", {"sheet": SimpleUploadedFile("own.csv", data.encode())})
    form = client.get(f"/shelf/sheets/{Batch.objects.first().pk}/columns/").context["form"]
    return {field.name: field.value() for field in form if field.value()}


def test_headings_of_its_own_are_said_once(bring, write, owner):
    assert drawn(owner, OWN) == {}
    write(bring(OWN, columns=SAID))
    assert drawn(owner, "ort ;Wer;BEZEICHNUNG\nBin 2;Ines;Fuel hose\n") == {"place": "0", "name": "2"}
    assert Part.objects.get().name == "Hub nut"


def test_the_last_word_counts_and_that_it_is_none_is_one(bring, owner):
    bring("name,state,where\nHub nut,new,Bin 1\n", columns={"condition": "", "place": ""})
    assert drawn(owner, "name,state,where\nFuel hose,good,Bin 1\n") == {"name": "0"}
    bring("name,state\nHub nut,new\n", columns={"condition": "1"})
    assert drawn(owner, "name,state,where\nFuel hose,good,Bin 1\n") == {"name": "0", "condition": "1"}


def test_what_another_garage_said_is_not_ours(bring, stranger):
    bring(OWN, columns=SAID)
    assert drawn(stranger, OWN) == {}
