"""Wants: how each stands, who has it first, what to buy and what to pull."""

from datetime import date, timedelta

import pytest

from builds.shelf.actions import shelf
from builds.work.models.need import Need
from parts.actions.places import car_place
from tests.builds.plan.plan_kit import enter, evenings, job, planned, starts
from tests.builds.verdict.fit_kit import FINE
from tests.conftest import queries
from tests.factories import NOW, LinkFactory, NeedFactory, VehicleFactory
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = pytest.mark.usefixtures("now")
THURSDAY = date(2027, 3, 4)


@pytest.fixture
def shop(cast):
    class Shop:
        badger = VehicleFactory(garage=cast.garage, name="Badger")
        heron = VehicleFactory(garage=cast.garage, name="Heron")
        far = PlaceFactory(garage=cast.garage, name="Shelf B", walk_order=20)
        near = PlaceFactory(garage=cast.garage, name="Bin 1", kind="bin", walk_order=10)
        nuts = PartFactory(garage=cast.garage, name="Hub nut", supplier="Mill Ltd", cost_minor=250)

        @staticmethod
        def carry(part, verb, quantity=1, **ends):
            return shelf.carry_out(
                part, verb, quantity=quantity, by=cast.owner, at=NOW, **ends
            )  # fmt: skip

        @staticmethod
        def want(car, title="Front end", part=None, quantity=1, rank="needed", **more):
            row = job(car, cast, title=title, rank=rank)
            what = part.name if part else "odd bracket"
            return NeedFactory(job=row, part=part, what=what, quantity=quantity, **more)

    return Shop


def states(client):
    """What is on the page of wants: state, then job and words."""
    groups = client.get("/wants/").context["view"].groups
    return {state: [(row.job.title, row.line.word, row.line.behind) for row in rows] for state, _, rows in groups}


def lines(client, row):
    return client.get(f"/jobs/{row.pk}/").context["view"].waits.needs


def test_on_the_shelf_with_the_place(owner, shop):
    shop.carry(shop.nuts, "receive", 4, target=shop.far)
    need = shop.want(shop.badger, part=shop.nuts, quantity=4)
    assert states(owner) == {"shelf": [("Front end", "on the shelf: Shelf B", "")]}
    (line,) = lines(owner, need.job)
    assert (line.word, line.places) == ("on the shelf: Shelf B", ((shop.far.pk, 4),))


def test_the_safety_job_has_it_first_and_the_loser_is_told_behind_whom(owner, shop):
    shop.carry(shop.nuts, "receive", 4, target=shop.far)
    loser = shop.want(shop.badger, "Mud flaps", shop.nuts, 3)
    shop.want(shop.heron, "Hubs", shop.nuts, 3, rank="safety")
    found = states(owner)
    assert found["shelf"] == [("Hubs", "on the shelf: Shelf B", "")]
    said = "1 piece of 3 on the shelf. Behind “Hubs” (Heron)"
    assert found["promised"] == [("Mud flaps", "promised to others first", said)]
    Need.objects.filter(pk=loser.pk).update(expected_on=THURSDAY)
    assert states(owner)["ordered"] == [("Mud flaps", "expected Thu 4 Mar", said)]
    assert said in owner.get(f"/jobs/{loser.job.pk}/").content.decode()


def test_a_job_is_as_urgent_as_what_waits_for_it(owner, cast, shop):
    shop.carry(shop.nuts, "receive", target=shop.far)
    first = shop.want(shop.badger, "Asked first", shop.nuts)
    second = shop.want(shop.heron, "Before the brakes", shop.nuts)
    assert [row[0] for row in states(owner)["shelf"]] == [first.job.title]
    LinkFactory(before=second.job, after=job(shop.heron, cast, title="Brakes", rank="safety"))
    assert [row[0] for row in states(owner)["shelf"]] == [second.job.title]


def test_among_equals_the_nearest_event_has_it(owner, shop):
    shop.carry(shop.nuts, "receive", target=shop.far)
    shop.want(shop.badger, "Asked first", shop.nuts)
    shop.want(shop.heron, "Goes on Friday", shop.nuts)
    enter(shop.heron, NOW + timedelta(days=3))
    assert [row[0] for row in states(owner)["shelf"]] == ["Goes on Friday"]


def test_on_another_car_with_someone_away_or_to_find(owner, cast, shop):
    rack = PartFactory(garage=cast.garage, name="Rack", single=True)
    shop.want(shop.badger, part=rack)
    assert states(owner) == {"find": [("Front end", "to find", "")]}
    shop.carry(rack, "receive", target=shop.far)
    shop.carry(rack, "lend", source=shop.far, someone="Tove")
    assert states(owner) == {"car": [("Front end", "with Tove", "")]}
    someone = rack.balances.get(quantity=1).place
    shop.carry(rack, "return", source=someone, target=shop.far)
    shop.carry(rack, "fit", source=shop.far, car=shop.heron)
    assert states(owner) == {"car": [("Front end", "on Heron", "")]}


def test_what_is_to_be_repaired_is_promised_to_nobody(owner, shop):
    shop.carry(shop.nuts, "receive", target=shop.far)
    shop.nuts.condition = "repair"
    shop.nuts.save()
    shop.want(shop.badger, part=shop.nuts)
    assert states(owner) == {"car": [("Front end", "there, but to repair", "")]}


def test_the_plan_does_not_wait_for_what_lies_on_the_shelf(owner, cast, shop):
    evenings(cast.owner)
    shop.want(shop.badger, part=shop.nuts, expected_on=THURSDAY)
    assert starts(planned(cast.garage))["Front end"][0] == "Thu 18:00"
    shop.carry(shop.nuts, "receive", target=shop.far)
    assert starts(planned(cast.garage))["Front end"][0] == "Tue 18:00"


def test_what_is_to_be_found_costs_the_same_where_it_is_to_be_bought(owner, shop):
    shop.want(shop.heron, "Hoses", quantity=2, cost_minor=4850, supplier="Mill Ltd")
    view = owner.get("/wants/").context["view"]
    (asked,) = (row.line for state, _, rows in view.groups for row in rows if state == "find")
    (mill,) = view.suppliers
    assert asked.cost == mill.rows[0].cost == mill.total == "48.50 EUR" and mill.unpriced == 0


def test_what_lies_on_the_shelf_already_is_not_paid_once_more(owner, shop):
    shop.carry(shop.nuts, "receive", 3, target=shop.far)
    shop.want(shop.heron, part=shop.nuts, quantity=4, cost_minor=1000)
    (mill,) = owner.get("/wants/").context["view"].suppliers
    assert [(row.what, row.cost) for row in mill.rows] == [("Hub nut, 1 piece", "2.50 EUR")]


def test_to_buy_by_supplier_with_what_it_costs(owner, cast, shop):
    PartFactory(garage=cast.garage, name="Brake fluid", unit="ml", low_level=500)
    shop.carry(shop.nuts, "receive", target=shop.far)
    shop.want(shop.badger, "Hubs", shop.nuts, 5)
    shop.want(shop.badger, "Bracket", supplier="Mill Ltd")
    shop.want(shop.heron, "Ordered", expected_on=THURSDAY, cost_minor=1900, supplier="Mill Ltd")
    view = owner.get("/wants/").context["view"]
    named, unnamed = view.suppliers
    assert (named.name, named.total, named.unpriced) == ("Mill Ltd", "10.00 EUR", 1)
    assert [row.what for row in named.rows] == ["Hub nut, 4 pieces", "odd bracket, 1 piece"]
    assert [(row.what, row.why) for row in unnamed.rows] == [("Brake fluid, 500 ml", "runs low: 0 ml left of 500")]
    assert view.ordered == "19.00 EUR"


def test_pulled_by_place_in_the_order_of_the_way_round(owner, cast, shop):
    evenings(cast.owner)
    shop.carry(shop.nuts, "receive", 2, target=shop.far)
    shop.carry(shop.nuts, "receive", 1, target=shop.near)
    need = shop.want(shop.badger, part=shop.nuts, quantity=3)
    shop.want(shop.badger, "Bracket")
    view = owner.get("/pull/").context["view"]
    assert [(place.name, rows[0].quantity) for place, rows in view.places] == [
        ("Bin 1", 1),
        ("Shelf B", 2),
    ]
    assert [words for _, words in view.missing] == ["odd bracket: to find"]
    for place, (row,) in view.places:
        data = {"quantity": row.quantity, "source": place.pk, "job": row.job.pk, "next": "/pull/"}
        answer = owner.press(f"/parts/{row.part.pk}/move/pull/", data)
        assert answer["Location"] == "/pull/"
    need.refresh_from_db()
    assert need.got_at == NOW
    assert owner.get("/pull/").context["view"].places == ()


def test_for_one_job_or_for_what_the_plan_has_tonight(owner, cast, shop):
    evenings(cast.owner)
    shop.carry(shop.nuts, "receive", 9, target=shop.far)
    now, later = (
        shop.want(shop.badger, part=shop.nuts),
        shop.want(shop.heron, "Next week", shop.nuts),
    )
    later.job.earliest_at = NOW + timedelta(days=6)
    later.job.save()
    planned(cast.garage)
    for path, titles in [("/pull/", ["Front end"]), (f"/pull/?job={later.job.pk}", ["Next week"])]:
        places = owner.get(path).context["view"].places
        assert [row.job.title for _, rows in places for row in rows] == titles
    assert f"/pull/?job={now.job.pk}" in owner.get(f"/jobs/{now.job.pk}/").content.decode()


def test_what_is_promised_is_said_before_somebody_else_pulls_it(owner, shop):
    shop.carry(shop.nuts, "receive", target=shop.far)
    need = shop.want(shop.badger, part=shop.nuts, rank="safety")
    path = f"/parts/{shop.nuts.pk}/move/lend/"
    assert "“Front end” on Badger (safety): 1 piece" in owner.get(path).content.decode()
    own = owner.get(f"/parts/{shop.nuts.pk}/move/pull/?job={need.job.pk}").content.decode()
    assert "Promised to" not in own


def test_wanted_from_the_part_and_found_on_the_shelf_from_the_job(owner, cast, shop):
    row = job(shop.badger, cast, title="Front end")
    answer = owner.press(f"/parts/{shop.nuts.pk}/want/", {"job": row.pk, "quantity": 2})
    assert answer["Location"] == f"/jobs/{row.pk}/"
    need = Need.objects.get()
    assert (need.part, need.what, need.quantity) == (shop.nuts, "Hub nut", 2)
    other = NeedFactory(job=row, what="new hub")
    page = owner.get(f"/needs/{other.pk}/part/")
    assert [found.part for found in page.context["rows"]] == [shop.nuts]
    assert owner.get(f"/needs/{other.pk}/part/?q=rack").context["rows"] == []
    owner.press(f"/needs/{other.pk}/part/", {"part": shop.nuts.pk})
    other.refresh_from_db()
    assert other.part == shop.nuts


def test_parts_and_jobs_of_another_garage_are_not_named(owner, cast, shop):
    foreign = PartFactory(garage=cast.stranger.garage)
    need = NeedFactory(job=job(shop.badger, cast))
    assert owner.press(f"/needs/{need.pk}/part/", {"part": foreign.pk}).status_code == 422
    elsewhere = job(VehicleFactory(garage=cast.stranger.garage), cast)
    answer = owner.press(f"/parts/{shop.nuts.pk}/want/", {"job": elsewhere.pk, "quantity": 1})
    assert list(answer.context["form"].errors) == ["job"]
    assert owner.get(f"/pull/?job={elsewhere.pk}").status_code == 404
    assert owner.get("/pull/?job=" + "9" * 40).status_code == 200


def test_who_may(cast, shop):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    row = job(shop.badger, cast)
    for who, status in wanted.items():
        client = cast.client(who)
        data = {"job": row.pk, "quantity": 1}
        assert client.press(f"/parts/{shop.nuts.pk}/want/", data).status_code == status
        need = NeedFactory(job=row)
        part = {"part": shop.nuts.pk}
        assert client.press(f"/needs/{need.pk}/part/", part).status_code == status


def test_markup_is_shown_as_typed(owner, shop):
    need = shop.want(shop.badger, "<b>job</b>", supplier="<b>us</b>")
    for path in ("/wants/", "/pull/", f"/needs/{need.pk}/part/"):
        body = owner.get(path).content.decode()
        assert "<b>job</b>" not in body and "<b>us</b>" not in body


def test_as_many_queries_for_forty_as_for_one(owner, cast, shop):
    rack = PartFactory(garage=cast.garage, name="Rack")
    shop.carry(rack, "receive", 9, target=shop.far)
    shop.carry(rack, "fit", 1, source=shop.far, car=shop.heron)
    need = shop.want(shop.badger, part=rack)
    paths = ("/wants/", "/pull/", f"/jobs/{need.job.pk}/", f"/parts/{rack.pk}/")
    first = [queries(owner, path) for path in paths]
    for number in range(20):
        part = PartFactory(garage=cast.garage, low_level=3)
        shop.carry(part, "receive", 2, target=shop.near)
        shop.want(shop.badger, f"Job {number}", part)
        shop.want(shop.heron, f"Job {number}", rack)
    assert [queries(owner, path) for path in paths] == first
    assert car_place(shop.heron).balances.count() == 1


def bought(client):
    return [(row.what, row.alike) for supplier in client.get("/wants/").context["view"].suppliers
            for row in supplier.rows]  # fmt: skip


def test_what_is_wanted_in_words_and_lies_on_the_shelf_is_not_bought_unseen(owner, cast, shop):
    shop.carry(shop.nuts, "receive", 6, target=shop.far)
    need = NeedFactory(job=job(shop.badger, cast, title="Hubs"), what="hub nuts", quantity=8)
    assert bought(owner) == [("hub nuts, 8 pieces", "On the shelf: 6 pieces of Hub nut. Is it this?")]
    assert f'href="/needs/{need.pk}/part/"' in owner.get("/wants/").content.decode()


def test_nor_is_what_fits_under_another_name(owner, cast, shop):
    bolt = PartFactory(garage=cast.garage, name="Harness bolt", interfaces=FINE)
    shop.carry(bolt, "receive", 4, target=shop.far)
    NeedFactory(job=job(shop.badger, cast, title="Belts"), what="two bolts", quantity=2, fit=FINE)
    assert bought(owner) == [("two bolts, 2 pieces", "On the shelf: 4 pieces of Harness bolt. Is it this?")]


def test_what_the_shelf_has_had_and_what_is_called_otherwise_is_bought(owner, cast, shop):
    NeedFactory(job=job(shop.badger, cast, title="Hubs"), what="hub nut", quantity=8)
    assert bought(owner) == [("hub nut, 8 pieces", "")]
