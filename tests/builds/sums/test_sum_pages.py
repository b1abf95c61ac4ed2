"""Pages of the bench sums: found by words, worked out in the garage's units, refused at the field."""

from html import unescape

import pytest

from builds.bench.catalogue import SUMS
from tests.pages import words

pytestmark = [pytest.mark.django_db, pytest.mark.once, pytest.mark.usefixtures("now")]
CAR = {"fl": "312.5", "fr": "298", "rl": "287", "rr": "302.5", "wheelbase": "2575"}
TRACKS = {"track_front": "1475", "track_rear": "1480"}


def test_the_list_has_every_sum_and_finds_by_words(owner):
    body = owner.get("/sums/").content.decode()
    assert all(f"/sums/{slug}/" in body for slug in SUMS)
    assert "/sums/corner-weights/" in owner.get("/sums/?find=centre+of+gravity").content.decode()
    assert "No sum has these words." in owner.get("/sums/?find=zebra").content.decode()


@pytest.mark.parametrize("slug", SUMS)
def test_a_page_opens_with_an_example_that_says_so(owner, slug):
    body = unescape(words(owner.get(f"/sums/{slug}/").content.decode()))
    assert "These figures are made up." in body
    assert SUMS[slug].caution in body
    assert SUMS[slug].limits in body


def test_figures_are_worked_out_and_drawn(owner):
    answer = owner.get("/sums/corner-weights/", CAR | TRACKS)
    assert dict(answer.context["view"].answers)["Cross, front right and rear left"] == "48.8 % ± 0.1"
    assert 'role="img"' in answer.content.decode()
    assert "These figures are made up." not in answer.content.decode()


def test_a_wrong_figure_is_said_at_its_field_and_what_was_typed_is_kept(owner):
    answer = owner.get("/sums/corner-weights/", CAR | TRACKS | {"fr": "minus"})
    assert answer.status_code == 422
    assert list(answer.context["form"].errors) == ["fr"]
    assert 'value="minus"' in answer.content.decode()
    assert not answer.context["view"].answers


def test_an_imperial_garage_reads_pounds_and_inches(owner, cast):
    cast.garage.units = "imperial"
    cast.garage.save()
    assert 'value="2575 mm"' in owner.get("/sums/corner-weights/").content.decode()
    typed = {"fl": "690", "fr": "660", "rl": "615", "rr": "635", "wheelbase": "100", "track_front": "58"}
    answer = owner.get("/sums/corner-weights/", typed | {"track_rear": "58"})
    assert dict(answer.context["view"].answers)["All together"] == "2600 lb ± 2.2"


@pytest.mark.parametrize("slug", SUMS)
def test_an_imperial_garage_reads_every_example(owner, cast, slug):
    cast.garage.units = "imperial"
    cast.garage.save()
    answer = owner.get(f"/sums/{slug}/")
    assert answer.status_code == 200
    assert answer.context["view"].answers


def test_there_is_no_other_sum(owner):
    assert owner.get("/sums/zebra/").status_code == 404


def test_a_line_of_a_list_is_left_out_and_put_back(owner):
    page = owner.get("/sums/harness/", {"loads": "Fuel pump 8 A\nFan 20 A", "alternator": "20", "battery": "44"})
    assert dict(page.context["view"].answers)["All together"] == "28 A"
    (_, fan) = page.context["what_ifs"]
    assert (fan.line, fan.is_out) == ("Fan 20 A", False)
    without = owner.get(fan.url)
    assert dict(without.context["view"].answers)["All together"] == "8 A"
    (_, fan) = without.context["what_ifs"]
    assert fan.is_out
    again = owner.get(fan.url)
    assert dict(again.context["view"].answers)["All together"] == "28 A"
    assert "Leave out" in words(again.content.decode())


def test_a_figure_may_say_what_it_is_off(owner):
    page = owner.get("/sums/dew-point/", {"air": "16 ± 1", "humid": "71"})
    assert dict(page.context["view"].answers)["Dew point"] == "10.7 °C ± 1"
    worse = owner.get("/sums/dew-point/", {"air": "16 ± x", "humid": "71"})
    assert list(worse.context["form"].errors) == ["air"]
