"""Moves: two taps from a part; each refusal at its field; a robbed car said before and after."""

import pytest

from builds.work.models.need import Need
from builds.work.models.owed import Owed, PartUse
from parts.actions import stock
from parts.actions.places import house_place
from parts.models import Balance, Move, Place
from tests.factories import NOW, JobFactory, NeedFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")


def where(part):
    rows = Balance.objects.filter(part=part, outside=False, quantity__gt=0).select_related("place")
    return {row.place.name: row.quantity for row in rows}


def press(client, part, verb, **data):
    return client.press(f"/parts/{part.pk}/move/{verb}/", {"quantity": 1, **data})


def drawn(client, part, verb, query=""):
    return client.get(f"/parts/{part.pk}/move/{verb}/{query}")


def test_received_lent_and_back_put_elsewhere_repaired_and_scrapped(owner, shop):
    taps = [
        ("receive", {"target": shop.shelf.pk}, "Shelf A"),
        ("lend", {"source": shop.shelf.pk, "someone": "Tove"}, "Tove"),
        ("return", {"source": "Tove", "target": shop.bin.pk}, "Bin 1"),
        ("put", {"source": shop.bin.pk, "target": shop.shelf.pk}, "Shelf A"),
        ("repair", {"source": shop.shelf.pk}, "away for repair"),
        ("return", {"source": "away for repair", "target": shop.shelf.pk}, "Shelf A"),
        ("fit", {"source": shop.shelf.pk, "car": shop.badger.pk}, "Badger"),
        ("take_off", {"source": "Badger", "target": shop.shelf.pk}, "Shelf A"),
        ("scrap", {"source": shop.shelf.pk}, "the scrap"),
    ]
    for verb, data, end in taps:
        if isinstance(data.get("source"), str):
            data["source"] = Place.objects.get(name=data["source"]).pk
        answer = press(owner, shop.hubs, verb, **data)
        assert (answer.status_code, answer["Location"]) == (303, f"/parts/{shop.hubs.pk}/"), verb
        assert where(shop.hubs) == {end: 1}
    assert Move.objects.of(shop.hubs).count() == len(taps)


def test_what_has_one_answer_is_filled_in(owner, shop):
    shop.put(shop.nuts, shop.shelf, 4)
    job = JobFactory(vehicle=shop.badger)
    NeedFactory(job=job, part=shop.nuts, quantity=4)
    form = drawn(owner, shop.nuts, "pull").context["form"]
    assert form["source"].value() == shop.shelf.pk
    assert form["job"].value() == job.pk
    assert "target" not in form.fields  # what is pulled goes to the bench


def test_what_was_pulled_for_a_job_is_fitted_for_it_onto_its_car(owner, shop):
    shop.put(shop.hubs, shop.shelf)
    job = JobFactory(vehicle=shop.badger)
    press(owner, shop.hubs, "pull", source=shop.shelf.pk, job=job.pk)
    form = drawn(owner, shop.hubs, "fit").context["form"]
    assert (form["car"].value(), form["job"].value()) == (shop.badger.pk, job.pk)
    other = drawn(owner, shop.hubs, "fit", f"?car={shop.heron.pk}").context["form"]
    assert (other["car"].value(), other["job"].value()) == (shop.heron.pk, None)


def test_a_link_fills_in_what_it_knows(owner, shop):
    shop.put(shop.nuts, shop.shelf, 4)
    shop.put(shop.nuts, shop.bin, 4)
    form = drawn(owner, shop.nuts, "pull", f"?source={shop.bin.pk}&quantity=3").context["form"]
    assert (form["source"].value(), form["quantity"].value()) == (shop.bin.pk, 3)
    assert drawn(owner, shop.nuts, "pull", "?source=x&job=-1").status_code == 200


def test_before_a_car_is_robbed_the_page_says_what_it_will_be(owner, shop):
    shop.put(shop.hubs, shop.on_badger)
    body = drawn(owner, shop.hubs, "pull").content.decode()
    assert "Badger will not be fit to run: it is owed Front hubs (safety)." in body
    assert "Not fit to run: 1 thing stands in the way." in body
    assert not Owed.objects.exists()
    assert "Open safety job" not in owner.get(f"/cars/{shop.badger.pk}/").content.decode()


def test_a_car_that_is_not_fit_already_is_told_so(owner, shop):
    shop.put(shop.hubs, shop.on_badger)
    JobFactory(vehicle=shop.badger)
    body = drawn(owner, shop.hubs, "pull").content.decode()
    assert "Badger is not and will not be fit to run: it is owed Front hubs (safety)." in body
    assert "2 things stand in the way" in body


def test_safety_work_on_the_donor_itself_robs_nobody(owner, shop):
    shop.put(shop.hubs, shop.on_badger)
    job = JobFactory(vehicle=shop.badger, systems=["wheels"])
    assert "is owed" not in drawn(owner, shop.hubs, "pull", f"?job={job.pk}").content.decode()
    press(owner, shop.hubs, "pull", source=shop.on_badger.pk, job=job.pk)
    assert not Owed.objects.exists()


@pytest.mark.parametrize("verb", ["pull", "take_off", "repair", "scrap"])
def test_once_robbed_the_verdict_changes_at_once_whatever_the_verb(owner, shop, verb):
    shop.put(shop.hubs, shop.on_badger)
    target = {"target": shop.shelf.pk} if verb == "take_off" else {}
    press(owner, shop.hubs, verb, source=shop.on_badger.pk, **target)
    body = owner.get(f"/cars/{shop.badger.pk}/").content.decode()
    assert "Open safety job: “Owed: Front hubs”" in body
    assert "Badger is owed it." in owner.get(f"/parts/{shop.hubs.pk}/").content.decode()


def test_pulled_for_a_job_it_is_no_longer_needed_until_that_is_undone(owner, shop):
    shop.put(shop.nuts, shop.shelf, 4)
    need = NeedFactory(job=JobFactory(vehicle=shop.badger), part=shop.nuts, quantity=4)
    taken = {"source": shop.shelf.pk, "job": need.job.pk}
    press(owner, shop.nuts, "pull", **taken, quantity=1)
    need.refresh_from_db()
    assert need.got_at is None  # one of four is not four
    press(owner, shop.nuts, "pull", **taken, quantity=3)
    need.refresh_from_db()
    assert need.got_at == NOW
    owner.press(f"/moves/{Move.objects.latest('pk').pk}/undo/")
    need.refresh_from_db()
    assert need.got_at is None
    assert PartUse.objects.standing().count() == 1


def test_pulled_and_then_fitted_counts_once(owner, shop):
    shop.put(shop.nuts, shop.shelf, 2)
    job = JobFactory(vehicle=shop.badger)
    first, second = NeedFactory.create_batch(2, job=job, part=shop.nuts)
    press(owner, shop.nuts, "pull", source=shop.shelf.pk, job=job.pk)
    bench = Place.objects.get(kind="bench")
    press(owner, shop.nuts, "fit", source=bench.pk, car=shop.badger.pk, job=job.pk)
    assert list(Need.objects.filter(got_at=None)) == [second]
    press(owner, shop.nuts, "fit", source=shop.shelf.pk, car=shop.badger.pk, job=job.pk)
    assert not Need.objects.filter(got_at=None).exists()
    assert first.pk < second.pk


@pytest.mark.parametrize(
    ("verb", "more", "field", "sentence"),
    [
        ("pull", {"quantity": 5}, "quantity", "Shelf A has 4 pieces of Hub nuts left, not 5."),
        ("pull", {"quantity": 0}, "quantity", "Ensure this value is greater"),
        ("pull", {"quantity": "many"}, "quantity", "Enter a whole number."),
        ("pull", {"source": ""}, "source", "This field is required."),
        ("pull", {"source": "999999"}, "source", "Select a valid choice."),
        ("pull", {"job": "999999"}, "job", "Select a valid choice."),
        ("fit", {}, "car", "This field is required."),
        ("lend", {}, "someone", "This field is required."),
        ("put", {}, "target", "This field is required."),
        ("put", {"target": "here"}, "target", "Hub nuts is at Shelf A already."),
    ],
)
def test_what_cannot_be_is_said_at_its_field(owner, shop, verb, more, field, sentence):
    shop.put(shop.nuts, shop.shelf, 4)
    if more.get("target") == "here":
        more = {"target": shop.shelf.pk}
    answer = press(owner, shop.nuts, verb, **{"source": shop.shelf.pk, **more})
    assert answer.status_code == 422
    assert answer.context["form"].errors[field][0].startswith(sentence)
    assert where(shop.nuts) == {"Shelf A": 4}


def test_a_job_on_another_car_takes_no_part_fitted_here(owner, shop):
    shop.put(shop.nuts, shop.shelf)
    job = JobFactory(vehicle=shop.heron, title="Front end")
    data = {"source": shop.shelf.pk, "car": shop.badger.pk, "job": job.pk}
    answer = press(owner, shop.nuts, "fit", **data)
    said = ["“Front end” is a job on Heron, not on Badger."]
    assert answer.context["form"].errors["job"] == said


def test_the_unknown_is_fitted_only_with_a_reason(owner, shop):
    rack = PartFactory(garage=shop.garage, condition="unknown")
    shop.put(rack, shop.shelf)
    data = {"source": shop.shelf.pk, "car": shop.badger.pk}
    answer = press(owner, rack, "fit", **data)
    assert list(answer.context["form"].errors) == ["unknown_because"]
    assert press(owner, rack, "fit", **data, unknown_because="crack tested").status_code == 303
    assert Move.objects.latest("pk").why == "crack tested"


def test_what_is_used_once_goes_to_the_scrap_and_is_not_asked_where(owner, shop):
    pins = PartFactory(garage=shop.garage, name="Split pins", one_use=True)
    stock.move(
        pins, "receive", 4, house_place(shop.garage, "supplier"), shop.shelf, at=NOW,
        by=shop.garage.memberships.first(),
    )  # fmt: skip
    press(owner, pins, "fit", quantity=4, source=shop.shelf.pk, car=shop.badger.pk)
    form = drawn(owner, pins, "take_off").context["form"]
    assert "target" not in form.fields
    job = JobFactory(vehicle=shop.badger)
    press(owner, pins, "take_off", quantity=4, source=shop.on_badger.pk, job=job.pk)
    assert where(pins) == {"the scrap": 4}


def test_a_mistake_is_undone_from_the_part_for_a_while(owner, shop, monkeypatch):
    shop.put(shop.nuts, shop.shelf, 4)
    press(owner, shop.nuts, "pull", source=shop.shelf.pk)
    move = Move.objects.latest("pk")
    page = f"/parts/{shop.nuts.pk}/"
    assert f"/moves/{move.pk}/undo/" in owner.get(page).content.decode()
    owner.press(f"/moves/{move.pk}/undo/")
    assert where(shop.nuts) == {"Shelf A": 4}
    assert "(undone)" in owner.get(page).content.decode()
    again = owner.press(f"/moves/{move.pk}/undo/", follow=True).content.decode()
    assert "This move was undone already." in again
    press(owner, shop.nuts, "pull", source=shop.shelf.pk)
    later = NOW + stock.UNDO_FOR * 2
    monkeypatch.setattr("garage.clock.now", lambda: later)
    assert "/undo/" not in owner.get(page).content.decode()
    owner.press(f"/moves/{Move.objects.latest('pk').pk}/undo/")
    assert where(shop.nuts) == {"Shelf A": 3, "the bench": 1}


def test_a_double_tap_moves_once(owner, shop):
    shop.put(shop.nuts, shop.shelf, 4)
    data = {"quantity": 1, "source": shop.shelf.pk, "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c99"}
    first, second = (owner.post(f"/parts/{shop.nuts.pk}/move/pull/", data) for _ in range(2))
    assert first["Location"] == second["Location"]
    assert where(shop.nuts)["Shelf A"] == 3


def test_a_move_there_is_not(owner, shop):
    shop.put(shop.nuts, shop.shelf)
    for verb in ("count", "reverse", "steal"):
        assert press(owner, shop.nuts, verb, source=shop.shelf.pk).status_code == 404
    assert "There is none of it" in drawn(owner, shop.nuts, "return").content.decode()


def test_without_a_place_the_first_step_is_one(stranger, cast):
    part = PartFactory(garage=cast.stranger.garage)
    assert "There is no place yet" in drawn(stranger, part, "receive").content.decode()


def test_who_may(cast, shop):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in wanted.items():
        client = cast.client(who)
        nuts = PartFactory(garage=cast.garage)
        shop.put(nuts, shop.shelf, 4)
        assert press(client, nuts, "pull", source=shop.shelf.pk).status_code == status
        count = {"place": shop.shelf.pk, "counted": 9}
        assert client.press(f"/parts/{nuts.pk}/count/", count).status_code == status
        last = Move.objects.of(nuts).first()
        assert client.press(f"/moves/{last.pk}/undo/").status_code == status


def test_a_strangers_places_and_jobs_are_not_offered(stranger, cast, shop):
    part = PartFactory(garage=cast.stranger.garage)
    shelf = PlaceFactory(garage=cast.stranger.garage)
    answer = press(stranger, part, "receive", target=shop.shelf.pk)
    assert list(answer.context["form"].errors) == ["target"]
    press(stranger, part, "receive", target=shelf.pk)
    job = JobFactory(vehicle=shop.badger)
    answer = press(stranger, part, "pull", source=shelf.pk, job=job.pk)
    assert list(answer.context["form"].errors) == ["job"]
