"""How many calendars somebody has, whose a viewer may have, and that a revoked one tells nothing: asked of the acts."""

import pytest

from builds.calendar import actions
from builds.calendar.models import CalendarFeed
from garage.actions.refused import Refused
from tests.factories import NOW


def test_twelve_and_no_more_until_one_is_revoked(cast):
    for _ in range(12):
        actions.make(by=cast.helper, whole=False, at=NOW)
    with pytest.raises(Refused, match="You have 12 calendars: revoke one"):
        actions.make(by=cast.helper, whole=True, at=NOW)
    actions.make(by=cast.owner, whole=True, at=NOW)
    actions.revoke(CalendarFeed.objects.filter(member=cast.helper).first(), at=NOW)
    actions.make(by=cast.helper, whole=True, at=NOW)


def test_a_viewer_has_none_of_his_own(cast):
    with pytest.raises(Refused, match="take the calendar of the whole garage"):
        actions.make(by=cast.viewer, whole=False, at=NOW)
    assert actions.make(by=cast.viewer, whole=True, at=NOW)[0].whole


def test_one_that_was_revoked_tells_nothing(cast):
    feed, token = actions.make(by=cast.owner, whole=True, at=NOW)
    assert actions.tell(feed, [], at=NOW) == []
    actions.revoke(feed, at=NOW)
    with pytest.raises(Refused, match="This calendar was revoked"):
        actions.tell(feed, [], at=NOW)
    assert actions.open_by(token, address="192.0.2.1", at=NOW) is None
