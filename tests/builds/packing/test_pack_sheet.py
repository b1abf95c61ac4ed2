"""The pack list on paper."""

from pytest import fixture

from builds.packing import actions as packing
from tests.factories import (
    NOW,
    EntryFactory,
    EventFactory,
    VehicleFactory,
)
from tests.pdf import answered


@fixture
def entry(cast, now):
    car = VehicleFactory(garage=cast.garage, name='He"ron/../x')
    return EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)


def words(answer):
    return " ".join(answered(answer))


def test_the_pack_list_is_ticked_where_it_is_in(viewer, stranger, cast, entry):
    path = f"/events/{entry.event_id}/pack.pdf"
    assert "No list was made yet" in words(viewer.get(path))
    made = packing.make(entry.event, by=cast.owner, at=NOW)
    text = words(viewer.get(path))
    assert f"Pack for {entry.event}" in text and "0 of" in text
    for item in made.items.all():
        assert " ".join(item.what.split()) in text
    assert stranger.get(path).status_code == 404
