"""What links, places kept and the owner's word for a car refuse by themselves."""

import pytest

from builds.steps.actions import links, steps
from builds.work.models.link import Link, StationHold
from garage.actions.refused import Refused
from tests.factories import NOW, JobFactory, LinkFactory, StationFactory, VehicleFactory

# Six letters say something, five and any signs do not.
TOO_SHORT = ["", "  ", "abcde", "1234567", "a.b.c.d.e."]


@pytest.fixture
def pair(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    return [JobFactory(vehicle=car, title=title) for title in ("Strip", "Build")]


@pytest.mark.parametrize("because", TOO_SHORT)
def test_the_order_of_work_is_cut_with_a_reason_in_words(cast, pair, because):
    link = LinkFactory(before=pair[0], after=pair[1], by_order=True)
    with pytest.raises(Refused, match="Say why in words") as refused:
        links.cut(link, because=because, by=cast.owner, at=NOW)
    assert refused.value.field == "because"
    assert Link.objects.get().cut_at is None
    links.cut(link, because="abcdef", by=cast.owner, at=NOW)


def test_what_was_written_down_by_hand_is_taken_away_and_not_cut(cast, pair):
    link = LinkFactory(before=pair[0], after=pair[1])
    with pytest.raises(Refused, match="written down by hand"):
        links.cut(link, because="not on this car", by=cast.owner, at=NOW)


def test_a_place_is_kept_once(cast, pair):
    LinkFactory(before=pair[0], after=pair[1])
    bay = StationFactory(garage=cast.garage, name="Bay")
    links.hold_station(bay, *pair)
    with pytest.raises(Refused, match="Bay is kept for these jobs already"):
        links.hold_station(bay, *pair)
    assert StationHold.objects.count() == 1


@pytest.mark.parametrize("because", TOO_SHORT)
def test_the_place_of_a_stripped_car_is_freed_with_a_reason_in_words_by_the_owner(cast, pair, because):
    LinkFactory(before=pair[0], after=pair[1])
    kept = links.hold_station(StationFactory(garage=cast.garage, name="Bay"), *pair)
    steps.finish(pair[0], by=cast.helper, at=NOW)
    with pytest.raises(Refused, match="only the owner frees Bay"):
        links.free_station(kept, by=cast.helper, at=NOW, because="pushed out to the yard")
    with pytest.raises(Refused, match="Say why in words") as refused:
        links.free_station(kept, by=cast.owner, at=NOW, because=because)
    assert refused.value.field == "because"
    kept.refresh_from_db()
    assert kept.freed_at is None
    links.free_station(kept, by=cast.owner, at=NOW, because=" abcdef ")
    assert kept.freed_because == "abcdef"


@pytest.mark.parametrize("because", TOO_SHORT)
def test_the_owner_answers_for_a_car_in_words(cast, pair, because):
    steps.start(pair[0], by=cast.owner, at=NOW)
    steps.drop(pair[0], by=cast.owner, at=NOW, reason="left for the spring")
    with pytest.raises(Refused, match="Say why in words") as refused:
        steps.whole(pair[0], by=cast.owner, at=NOW, reason=because)
    assert refused.value.field == "reason"
    with pytest.raises(Refused, match="Only the owner says that the car is as it was"):
        steps.whole(pair[0], by=cast.helper, at=NOW, reason="nothing was undone")
    steps.whole(pair[0], by=cast.owner, at=NOW, reason="abcdef")
    assert pair[0].whole_because == "abcdef"


def test_a_job_waits_for_another_of_its_garage_and_once(cast, pair):
    first, last = pair
    with pytest.raises(Refused, match="“Strip” cannot wait for itself"):
        links.add(first, first)
    with pytest.raises(Refused, match="Both jobs must be in the same garage"):
        links.add(first, JobFactory(title="Elsewhere"))
    links.add(first, last)
    with pytest.raises(Refused, match="“Build” waits for “Strip” already"):
        links.add(first, last)
    assert Link.objects.by_hand().count() == 1


def test_a_job_opened_again_names_the_first_that_came_after_it_and_how_many_more(cast):
    car = VehicleFactory(garage=cast.garage)
    first, *later = (JobFactory(vehicle=car, title=title) for title in ("Weld", "Prime", "Paint", "Refit"))
    for job in later:
        LinkFactory(before=first, after=job)
    for many, more in ((1, ""), (2, " and 1 more"), (3, " and 2 more")):
        for job in (first, later[many - 1]):
            job.refresh_from_db()
            if job.state == "open":
                steps.finish(job, by=cast.owner, at=NOW)
        said = steps.reopen(first, by=cast.owner, at=NOW, reason="a crack")
        assert said == [f"“Prime”{more} came after it: see whether that must be done again."]
