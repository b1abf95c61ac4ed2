"""Once a night at an event is over, what is left of its work is done at home, wherever that is said."""

from datetime import timedelta

import pytest

from builds.paper.pages.checklist import checklist_rows
from builds.plan.engine.ids import id_of
from builds.plan.facts.prospects import prospects
from builds.plan.pages.nights import night_views
from builds.today.facts.asked import Asked
from builds.today.pages.card_sheet import card_sheet_rows
from builds.work.facts.room_now import room_now
from garage.models import Night
from tests.builds.events.night_kit import HOUR, make_fair
from tests.builds.plan.plan_kit import followed, job
from tests.factories import NOW, EntryFactory, EventFactory, JobStationFactory, StationFactory, VehicleFactory

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def fair(cast):
    return make_fair(cast)


def test_no_page_has_its_work_there(cast, fair):
    """The car's next event judges what was left, and its sheet says no more that it is done overnight."""
    fair.overnight()
    later = EntryFactory(vehicle=fair.heron, event=EventFactory(garage=cast.garage))
    after = fair.event.back_at + HOUR
    prospect = prospects(cast.garage, after, [fair.heron], followed(cast.garage, at=after))[fair.heron.pk]
    assert prospect.entry == later
    assert fair.hub.pk not in [reason.ref for reason in prospect.on_plan.reasons]
    for entry, at, is_there in ((fair.entry, NOW, True), (later, after, False)):
        notes = [row.note for row in checklist_rows(entry, at).reasons]
        assert any("Overnight at Saltmarsh." in note for note in notes) is is_there
        (hand,) = card_sheet_rows(cast.garage, at, Asked(job=fair.hub)).hands
        assert any("At: the paddock" in line for line in hand.cards[0].facts) is is_there


@pytest.mark.parametrize(
    ("at", "begins", "length"),
    [
        (NOW + 5 * HOUR, HOUR, 4 * HOUR),
        (NOW + 12 * HOUR, HOUR, 4 * HOUR),
        (NOW, HOUR + HOUR / 12, HOUR / 12),
        (NOW - timedelta(days=200), HOUR, 4 * HOUR),
    ],
    ids=["its work ends", "before the morning", "five minutes long", "more than half a year ahead"],
)
def test_the_garage_is_planned_whatever_its_hours(cast, fair, at, begins, length):
    fair.overnight()
    Night.objects.update(from_at=NOW + begins, until_at=NOW + begins + length)
    home = job(VehicleFactory(garage=cast.garage, name="Moth"), cast, title="Fan")
    plan = followed(cast.garage, at=at)
    assert id_of("job", home.pk) in plan.placed
    assert "there is no time when it may be worked at" in plan.unplaced[id_of("job", fair.hub.pk)].why


def test_its_work_is_offered_for_the_next_one(cast, fair):
    fair.overnight()
    second = Night.objects.create(
        event=fair.event, from_at=NOW + 16 * HOUR, until_at=NOW + 18 * HOUR, due_at=NOW + 20 * HOUR
    )
    for at, first, then in ((NOW, [fair.hub], []), (fair.night.due_at, [], [fair.hub])):
        views = night_views(cast.garage, [fair.night, second], None, at)
        assert [row.job for row in views[0].jobs] == first
        assert list(views[1].offers) == then


def test_its_work_wants_room_at_home(cast, fair):
    fair.overnight()
    bay = JobStationFactory(job=fair.hub, station=StationFactory(garage=cast.garage)).station_id
    assert room_now(cast.garage.pk, NOW).uses == {}
    assert room_now(cast.garage.pk, fair.night.due_at).uses == {fair.hub.pk: {bay: 1}}
