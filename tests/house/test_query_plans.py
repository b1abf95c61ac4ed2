"""What a page or a write asks of the database never leads through the rows of other garages.

Listened to is the walk of `test_queries.py`; here, that it is heard.
"""

import pytest

from builds.work.models.job import Job
from garage.models import Photo
from tests.house.query_plans import Asked

pytestmark = pytest.mark.once


@pytest.mark.parametrize(
    ("rows", "found"),
    [
        (Job.objects.filter(state="open"), True),
        (Job.objects.order_by("-made_at"), True),
        (Job.objects.filter(vehicle=1, state="open"), False),
        (Job.objects.filter(vehicle__garage=1), False),
        (Photo.objects.filter(garage=1).order_by("-at")[:3], False),
        (Photo.objects.filter(by_id__gt=7), True),
        (Photo.objects.filter(pk__in=Photo.objects.filter(caption="seam").values("pk")), True),
    ],
)
def test_who_reads_through_all_garages_is_found(db, rows, found):
    asked = Asked()
    with asked.listening():
        list(rows)
    assert bool(asked.through_all_garages()) is found
