"""Counts: the difference is a line of the ledger; what cannot lie there is refused at the field."""

import pytest

from parts.models import Move
from tests.builds.shelf.test_moves import where
from tests.parts.factories import PlaceFactory

pytestmark = pytest.mark.usefixtures("now")


def test_a_count_writes_the_difference_and_says_so(owner, shop):
    shop.put(shop.nuts, shop.shelf, 10)
    path = f"/parts/{shop.nuts.pk}/count/"
    assert owner.press(path, {"place": shop.shelf.pk, "counted": 7}).status_code == 303
    assert where(shop.nuts) == {"Shelf A": 7}
    assert Move.objects.latest("pk").verb == "count"
    answer = owner.press(path, {"place": shop.shelf.pk, "counted": -1})
    assert list(answer.context["form"].errors) == ["counted"]
    shop.put(shop.hubs, shop.shelf)
    answer = owner.press(f"/parts/{shop.hubs.pk}/count/", {"place": shop.shelf.pk, "counted": 2})
    said = ["Front hubs is one of a kind: there cannot be 2."]
    assert answer.context["form"].errors["counted"] == said


def test_one_of_a_kind_that_lies_elsewhere_is_refused_at_the_count(owner, shop):
    shop.put(shop.hubs, shop.shelf)
    other = PlaceFactory(garage=shop.garage, name="Shelf B")
    answer = owner.press(f"/parts/{shop.hubs.pk}/count/", {"place": other.pk, "counted": 1})
    assert list(answer.context["form"].errors) == ["counted"]
