"""The form of a trial: what is wrong with it is said, and nothing is tried."""

import pytest

from builds.plan.models import Plan
from builds.remedies.deeds.room import RoomDeed
from garage.actions.refused import Refused
from tests.builds.plan.plan_kit import text
from tests.builds.remedies.remedy_kit import late_entry, lonely_car
from tests.builds.remedies.trial_kit import ADD, tried
from tests.factories import NeedFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def late(cast):
    return late_entry(cast, lonely_car(cast))


class TestBadInput:
    @pytest.mark.parametrize(
        ("data", "sentence"),
        [
            ({}, "Choose at least one change."),
            ({"day": "2027-03-03", "hours": "18-22"}, "Choose at least one change."),
            ({"person": "{owner}"}, "Say on which day."),
            ({"person": "{owner}", "day": "2027-03-03"}, "Write the hours"),
            ({"person": "{owner}", "day": "2027-03-01", "hours": "18-22"}, "from today on"),
            ({"person": "{owner}", "day": "2029-03-01", "hours": "18-22"}, "within half a year"),
            ({"person": "{owner}", "day": "2027-03-03", "hours": "22-18"}, "runs backwards"),
            ({"person": "{owner}", "day": "2027-03-03", "hours": "soon"}, "Write hours such as"),
            ({"person": "{stranger}", "day": "2027-03-03", "hours": "18-22"}, "valid choice"),
            ({"need": "{need}"}, "Say on which day it comes."),
            ({"car": "entry.{entry}"}, "Say how much it matters"),
            ({"car": "entry.{entry}", "weight": "12"}, "less than or equal to 9"),
            ({"car": "entry.99999", "weight": "1"}, "valid choice"),
            ({"car": "enter.{event}.{entry}", "weight": "0"}, "valid choice"),
            ({"warm_mc": "warm"}, "number"),
            ({"do": "nonsense"}, "The changes before were not read"),
            ({"person": "{owner}", "day": "2027-03-02", "hours": "19-21"}, "overlap"),
        ],
    )
    def test_a_bad_form_says_what_to_do_and_keeps_what_was_typed(self, owner, cast, late, data, sentence):
        rows = {
            "owner": cast.owner.pk,
            "stranger": cast.stranger.pk,
            "entry": late.pk,
            "event": late.event_id,
            "need": NeedFactory(job=late.vehicle.jobs.get()).pk,
        }
        filled = {name: value.format(**rows) for name, value in data.items()}
        answer = owner.press(ADD, filled)
        assert answer.status_code == 422
        assert sentence in answer.content.decode()
        assert not Plan.objects.trials().exists()

    def test_a_link_with_nonsense_draws_an_empty_form(self, owner, late):
        assert "Besides what was tried" not in text(owner, f"{ADD}?do=nonsense.1")
        assert "Besides what was tried" not in text(owner, f"{ADD}?do=room.9999")

    def test_rows_that_are_gone_are_refused(self, cast, late):
        with pytest.raises(Refused, match="not there any more"):
            tried(cast, RoomDeed(9999))
