"""What is to be pulled, on screen and on paper."""

from pytest import fixture, mark

from tests.factories import (
    EntryFactory,
    EventFactory,
    JobFactory,
    VehicleFactory,
)


@fixture
def entry(cast, now):
    car = VehicleFactory(garage=cast.garage, name='He"ron/../x')
    return EntryFactory(event=EventFactory(garage=cast.garage), vehicle=car)


@mark.parametrize("asked", ["", "?job={job}", "?person={person}", "?event={event}", "?job=x"])
def test_a_pull_list_for_a_job_an_evening_a_person_or_an_event(viewer, cast, entry, asked):
    asked = asked.format(job=JobFactory(vehicle=entry.vehicle).pk, person=cast.helper.pk, event=entry.event_id)
    assert viewer.get(f"/pull/sheet.pdf{asked}").content.startswith(b"%PDF")
    body = viewer.get(f"/pull/{asked}").content.decode()
    assert f'href="/pull/sheet.pdf{asked if "x" not in asked else ""}"' in body


@mark.parametrize("name", ["job", "person", "event"])
def test_a_pull_list_for_another_garages_is_not_there(stranger, cast, entry, name):
    rows = {"job": JobFactory(vehicle=entry.vehicle), "person": cast.helper, "event": entry.event}
    assert stranger.get(f"/pull/sheet.pdf?{name}={rows[name].pk}").status_code == 404
