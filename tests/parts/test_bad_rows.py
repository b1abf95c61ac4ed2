"""A sheet whose rows are not all good is not written to the shelf."""

import pytest

from garage.actions.refused import Refused
from parts.actions import batches
from parts.models import Batch, BatchRow
from tests.factories import NOW


@pytest.mark.parametrize(("bad", "said"), [(1, "One row is bad: mend"), (2, "2 rows are bad: mend")])
def test_it_says_how_many_and_stays(cast, bad, said):
    told = {"file_name": "shelf.xlsx", "state": "checked", "total": 3, "made_at": NOW, "seen_at": NOW}
    batch = Batch.objects.create(garage=cast.garage, by=cast.owner, **told)
    for number in range(3):
        BatchRow.objects.create(batch=batch, line=number + 1, cells=[], kind="bad" if number < bad else "new")
    with pytest.raises(Refused, match=said):
        batches.begin_write(batch, by=cast.owner, at=NOW, now=lambda: NOW)
    batch.refresh_from_db()
    assert batch.state == "checked"
