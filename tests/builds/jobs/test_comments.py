"""Comments on a job: written by whoever works here, taken back by their writer or the owner."""

import pytest

from builds.steps.actions import comments
from builds.work.models.comment import JobComment
from garage.actions.refused import Refused
from tests.conftest import queries
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.pages import words


@pytest.fixture
def job(cast, now):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage), title="Fit the fan", made_by=cast.owner)


def test_it_stands_on_the_job_with_who_and_when(helper, viewer, job):
    answer = helper.press(f"/jobs/{job.pk}/comments/add/", {"text": "<b>Wrong</b> way round"})
    assert answer["Location"] == f"/jobs/{job.pk}/#comments"
    page = viewer.get(f"/jobs/{job.pk}/").content.decode()
    assert "&lt;b&gt;Wrong&lt;/b&gt; way round" in page and "Tove 17:00" in words(page).replace("  ", " ")
    assert "Take back" not in page and "comments/add" not in page


def test_whoever_wrote_it_and_the_owner_take_it_back(owner, helper, viewer, stranger, cast, job):
    hers = comments.comment(job, "Mine", by=cast.helper, at=NOW)
    his = comments.comment(job, "His", by=cast.owner, at=NOW)
    assert helper.get(f"/jobs/{job.pk}/").content.decode().count("Take back") == 1
    for client, status in ((viewer, 403), (stranger, 404)):
        assert client.press(f"/comments/{hers.pk}/delete/").status_code == status
    refused = helper.press(f"/comments/{his.pk}/delete/")
    assert refused.status_code == 403 and "Only Ines or the owner can take this back." in refused.content.decode()
    with pytest.raises(Refused, match="Only Ines or the owner"):
        comments.take_back(his, by=cast.helper)
    assert helper.press(f"/comments/{hers.pk}/delete/").status_code == 303
    assert owner.press(f"/comments/{his.pk}/delete/").status_code == 303
    assert not JobComment.objects.exists()
    assert "deleted a comment" in words(owner.get("/journal/").content.decode())


@pytest.mark.parametrize(("letters", "status"), [(0, 422), (1, 303), (500, 303), (501, 422)])
def test_how_long_it_may_be(helper, cast, job, letters, status):
    assert helper.press(f"/jobs/{job.pk}/comments/add/", {"text": "x" * letters}).status_code == status
    if status == 422:
        with pytest.raises(Refused):
            comments.comment(job, "x" * letters, by=cast.helper, at=NOW)


def test_many_cost_no_query_each(helper, cast, job):
    comments.comment(job, "One", by=cast.owner, at=NOW)
    one = queries(helper, f"/jobs/{job.pk}/")
    for _ in range(5):
        comments.comment(job, "More", by=cast.helper, at=NOW)
    assert queries(helper, f"/jobs/{job.pk}/") == one
