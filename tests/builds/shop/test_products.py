"""Products: examples until a garage enters its data sheet; what does not fit is refused there."""

import pytest

from builds.cure.engine import product_from_dict, shipped_products
from builds.cure.facts.products import products_of
from builds.cure.models.product import OwnProduct
from tests.conftest import queries
from tests.factories import NOW, JobFactory, LinkFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")
FORM = {
    "name": "Two-pack primer",
    "recoat_from": "10: 16 h; 20: 8 h; 30: 4 h",
    "recoat_to": "72 h",
    "minimum_mc": "10",
    "dew_margin": "3",
    "humidity": "85",
    "source": "Sheet of the tin, issue 4",
}


def add(client, **more):
    return client.press("/products/add/", {**FORM, **more})


def errors(answer):
    assert answer.status_code == 422
    return dict(answer.context["form"].errors)


def test_the_examples_say_that_the_data_sheet_overrides_them(owner):
    body = owner.get("/products/").content.decode()
    for product in shipped_products().values():
        assert product.name in body
    assert "example: the data sheet overrides" in body
    assert "An example: the data sheet overrides." in owner.get("/products/epoxy-primer/").content.decode()


def test_a_data_sheet_is_entered_line_by_line(owner, cast):
    answer = add(owner)
    assert (answer.status_code, answer["Location"]) == (303, "/products/two-pack-primer/")
    product = products_of(cast.garage)["two-pack-primer"]
    assert product.hours_at("recoat_from", 20) == 8
    assert product.hours_at("recoat_from", 5) is None
    assert product.hours_at("recoat_to", 25) == 72
    assert product.limits.margin == 3
    body = owner.get("/products/two-pack-primer/").content.decode()
    assert "10: 16 h; 20: 8 h; 30: 4 h" in body and "72 h at any temperature" in body


def test_one_temperature_and_a_factor(owner, cast):
    add(owner, recoat_from="20: 6", recoat_to="", factor="2", highest_mc="30")
    product = products_of(cast.garage)["two-pack-primer"]
    assert product.hours_at("recoat_from", 10) == pytest.approx(12)
    assert product.hours_at("recoat_from", 45) == pytest.approx(3)


@pytest.mark.parametrize("slug", [*shipped_products()])
def test_what_the_form_shows_it_keeps_as_it_was(owner, cast, slug):
    form = owner.get(f"/products/{slug}/edit/").context["form"]
    drawn = {field.html_name: field.value() for field in form}
    sent = {name: value for name, value in drawn.items() if value not in (None, False)}
    assert owner.press(f"/products/{slug}/edit/", sent).status_code == 303
    assert products_of(cast.garage)[slug] == shipped_products()[slug]
    assert OwnProduct.objects.get().slug == slug


def test_fahrenheit_in_and_out(owner, cast):
    cast.garage.units = "imperial"
    cast.garage.save()
    add(owner, recoat_from="50: 16 h; 68: 8 h", minimum_mc="50", dew_margin="5.4")
    product = products_of(cast.garage)["two-pack-primer"]
    assert (product.minimum, product.dew_margin) == (10, 3)
    assert product.hours_at("recoat_from", 20) == 8
    form = owner.get("/products/two-pack-primer/edit/").context["form"]
    assert form["recoat_from"].value() == "50: 16 h; 68: 8 h"
    assert form["dew_margin"].value() == "5.4"


@pytest.mark.parametrize(
    ("more", "field", "sentence"),
    [
        ({"name": ""}, "name", "This field is required."),
        ({"name": "epoxy Primer, two-pack"}, "name", "already."),
        ({"recoat_from": "10 16 h; 20: 8 h"}, "recoat_from", "such as 10: 16 h; 20: 8 h."),
        ({"recoat_from": "mild: 16 h; 20: 8 h"}, "recoat_from", "“mild” is no temperature."),
        ({"recoat_from": "10: a night; 20: 8 h"}, "recoat_from", "“a night” is no time"),
        ({"recoat_from": "10: 8 h; 20: 16 h"}, "recoat_from", "must not grow as it gets warmer."),
        ({"recoat_from": "10: 8 h; 10: 7 h"}, "recoat_from", "must rise from entry to entry."),
        ({"recoat_from": "20: 6 h"}, "recoat_from", "needs the factor for 10 °C more"),
        ({"recoat_from": "20: 0; 30: 0"}, "recoat_from", "0 hours is not a time between"),
        ({"recoat_from": "900: 6 h; 910: 5 h"}, "recoat_from", "check the unit."),
        ({"recoat_from": "; ".join(f"{n}: 1 h" for n in range(13))}, "recoat_from", "At most 12"),
        ({"recoat_from": "x" * 201}, "recoat_from", "at most 200 characters"),
        ({"recoat_to": "4 h"}, "recoat_to", "before it is ready for the next coat after"),
        ({"recoat_from": "20: 6 h", "factor": "2", "minimum_mc": ""}, "minimum_mc", "needs this"),
        ({"factor": "0.5"}, "factor", "greater than or equal to 1."),
        ({"humidity": "0"}, "humidity", "greater than or equal to 1."),
        ({"dew_margin": "30"}, "dew_margin", "between 0 and 20 °C."),
        ({"recoat_from": "", "recoat_to": ""}, "handle", "Give the time of at least one stage."),
        ({"maker_time_only": "on"}, "recoat_from", "has no stages."),
        (
            {"maker_time_only": "on", "recoat_from": "", "recoat_to": ""},
            "chart_mc",
            "needs the temperature that its maker's chart is for.",
        ),
    ],
)
def test_what_does_not_fit_is_refused_at_its_field(owner, more, field, sentence):
    found = errors(add(owner, **more))
    assert [*found] == [field]
    assert sentence in found[field][0]
    assert not OwnProduct.objects.exists()


def test_back_to_the_example(owner, cast):
    owner.press("/products/epoxy-primer/edit/", {**FORM, "name": "Epoxy primer, two-pack"})
    assert products_of(cast.garage)["epoxy-primer"].hours_at("recoat_to", 20) == 72
    assert owner.press("/products/epoxy-primer/reset/").status_code == 303
    assert products_of(cast.garage)["epoxy-primer"] == shipped_products()["epoxy-primer"]


def test_a_stage_that_a_link_waits_for_cannot_go(owner, cast):
    car = VehicleFactory(garage=cast.garage)
    add(owner)
    after = JobFactory(vehicle=car, title="Paint the arm")
    LinkFactory(
        before=JobFactory(vehicle=car),
        after=after,
        cure="two-pack-primer",
        cure_stage="recoat_from",
    )
    answer = owner.press("/products/two-pack-primer/edit/", {**FORM, "recoat_from": "", "handle": "20 h"})
    said = "“Paint the arm” waits for it: change that link first."
    assert errors(answer)["__all__"] == [said]
    owner.press("/products/two-pack-primer/reset/")
    assert OwnProduct.objects.exists()


def test_a_copy_that_cannot_be_read_leaves_the_example(owner, cast):
    OwnProduct.objects.create(garage=cast.garage, slug="epoxy-primer", name="x", body={"slug": "-"}, changed_at=NOW)
    OwnProduct.objects.create(garage=cast.garage, slug="lost", name="x", body={}, changed_at=NOW)
    assert products_of(cast.garage) == dict(sorted(shipped_products().items(), key=lambda item: item[1].name.lower()))
    assert "cannot be used" in owner.get("/products/epoxy-primer/").content.decode()


def test_bonded_glass_has_no_times_only_its_caution(owner):
    body = owner.get("/products/screen-adhesive/").content.decode()
    assert "Do not drive on a fresh bonded screen before the maker&#x27;s time." in body
    assert "is below the 23 °C of the maker&#x27;s chart" in body
    assert "Nobody computes it." in body


def test_only_the_owner_changes_products(cast):
    wanted = {"owner": 303, "helper": 403, "viewer": 403, "nobody": 302}
    for number, (who, status) in enumerate(wanted.items()):
        client = cast.client(who)
        assert add(client, name=f"Primer {number}").status_code == status
        assert client.press("/products/epoxy-primer/reset/").status_code == status
    assert cast.client("viewer").get("/products/primer-0/").status_code == 200
    assert cast.client("stranger").get("/products/primer-0/").status_code == 404


def test_an_address_of_no_product_is_not_there(owner):
    assert owner.get("/products/nothing/").status_code == 404
    add(owner, name="Add")
    assert product_from_dict(OwnProduct.objects.get().body).slug == "add-2"


def test_markup_in_a_name_is_shown_as_typed(owner):
    add(owner, name="<b>Primer</b>")
    assert "&lt;b&gt;Primer&lt;/b&gt;" in owner.get("/products/").content.decode()


def test_as_many_queries_for_twenty_as_for_one(owner):
    add(owner)
    first = queries(owner, "/products/")
    for number in range(20):
        add(owner, name=f"Primer {number}")
    assert queries(owner, "/products/") == first
