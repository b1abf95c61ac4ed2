"""Hours at home that meet an event are refused in one sentence; those beside it are not."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from garage.engine.away import Away, refuse_away

RIGA = ZoneInfo("Europe/Riga")
DAY = date(2027, 3, 6)
# From 08:00 until 20:00 of that day in Riga.
TRIP = Away("Kiln Lane", datetime(2027, 3, 6, 6, tzinfo=UTC), datetime(2027, 3, 6, 18, tzinfo=UTC))


@pytest.mark.parametrize(
    ("hours", "refused"),
    [
        ([(8 * 60, 9 * 60)], True),
        ([(7 * 60, 8 * 60)], False),
        ([(7 * 60, 8 * 60 + 1)], True),
        ([(20 * 60, 21 * 60)], False),
        ([(19 * 60 + 59, 21 * 60)], True),
        ([(6 * 60, 7 * 60), (21 * 60, 22 * 60)], False),
        ([], False),
    ],
)
def test_hours_that_meet_the_event_are_refused(hours, refused):
    said = refuse_away("Tove", [TRIP], DAY, hours, RIGA)
    assert said == ("Tove is at Kiln Lane then, until Sat 6 Mar 20:00." if refused else None)
