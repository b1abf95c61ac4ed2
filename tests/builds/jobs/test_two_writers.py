"""Two people change one job, one joint: each word is kept, and nobody's is passed over in silence."""

import json
import threading
import uuid

import pytest
from django.db import connection, connections

from builds.joints import actions as joints
from builds.joints.models import Joint
from builds.work.models.job import Job
from tests.conftest import signed_in
from tests.factories import JobFactory, VehicleFactory


@pytest.fixture
def job(cast, now):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    return JobFactory(vehicle=car, title="Weld the sill", made_by=cast.owner, note="")


def opened(client, url):
    """What the form would send untouched, with what it was drawn with."""
    form = client.get(url).context["form"]
    return {**form.standing, "drawn": form.drawn}


def test_a_note_that_another_wrote_meanwhile_is_not_written_over(owner, helper, job):
    url = f"/jobs/{job.pk}/edit/"
    first, second = opened(owner, url), opened(helper, url)
    assert owner.press(url, {**first, "note": "do not weld near tank"}).status_code == 303
    answer = helper.press(url, {**second, "note": "bring the long bar", "title": "Weld the left sill"})
    assert answer.status_code == 422
    form, page = answer.context["form"], answer.content.decode()
    assert [(version.label, version.stands, version.typed) for version in form.both] == [
        ("Note", "do not weld near tank", "bring the long bar")
    ]
    assert "Nothing is saved yet" in page and "it says “do not weld near tank” now" in page
    assert form["note"].value() == "bring the long bar" and form["title"].value() == "Weld the left sill"
    job.refresh_from_db()
    assert (job.note, job.title) == ("do not weld near tank", "Weld the sill")
    again = {**form.standing, "note": "bring the long bar", "title": "Weld the left sill", "drawn": form.drawn}
    assert helper.press(url, again).status_code == 303
    job.refresh_from_db()
    assert (job.note, job.title) == ("bring the long bar", "Weld the left sill")


def test_what_only_one_of_them_changed_is_merged(owner, helper, job):
    url = f"/jobs/{job.pk}/edit/"
    first, second = opened(owner, url), opened(helper, url)
    owner.press(url, {**first, "note": "do not weld near tank", "systems": ["fuel"]})
    assert helper.press(url, {**second, "title": "Weld the left sill"}).status_code == 303
    job.refresh_from_db()
    assert (job.title, job.note, job.systems) == ("Weld the left sill", "do not weld near tank", ["fuel"])


def test_what_was_merged_is_told_where_something_else_clashes(owner, helper, job):
    url = f"/jobs/{job.pk}/edit/"
    first, second = opened(owner, url), opened(helper, url)
    owner.press(url, {**first, "note": "near tank", "weight": "7"})
    page = helper.press(url, {**second, "note": "long bar"}).content.decode()
    assert "Changed by somebody else alone, and kept:" in page
    assert "Weight “7”" in page


def test_two_who_wrote_the_same_agree(owner, helper, job):
    url = f"/jobs/{job.pk}/edit/"
    first, second = opened(owner, url), opened(helper, url)
    for client, sent in ((owner, first), (helper, second)):
        assert client.press(url, {**sent, "note": "near tank"}).status_code == 303


def test_a_tick_that_both_set_differently_is_shown_in_words(owner, helper, job):
    url = f"/jobs/{job.pk}/edit/"
    first, second = opened(owner, url), opened(helper, url)
    owner.press(url, {**first, "systems": ["brakes"]})
    form = helper.press(url, {**second, "systems": ["fuel", "cage"]}).context["form"]
    (version,) = form.both
    assert (version.stands, version.typed) == ("Brakes", "Cage, Fuel")


def test_a_makers_figure_is_not_written_over(owner, helper, cast, job):
    joint = joints.add(
        job.vehicle, name="Wheel nuts", systems=["wheels"], opened_by=["wheel_off"], thread="M12×1.5", klass="",
        figure_mnm=90_000, figure_from="manual", wrench="", again_after_run=True,
    )  # fmt: skip
    url = f"/joints/{joint.pk}/"
    first, second = opened(owner, url), opened(helper, url)
    assert owner.press(url, {**first, "figure_mnm": "110"}).status_code == 303
    answer = helper.press(url, {**second, "figure_mnm": "80"})
    assert answer.status_code == 422
    (version,) = answer.context["form"].both
    assert (version.stands, version.typed) == ("110 N·m", "80 N·m")
    assert Joint.objects.get(pk=joint.pk).figure_mnm == 110_000


def test_markup_in_what_another_wrote_is_text(owner, helper, job):
    url = f"/jobs/{job.pk}/edit/"
    first, second = opened(owner, url), opened(helper, url)
    owner.press(url, {**first, "note": "<script>x</script>"})
    page = helper.press(url, {**second, "note": "<img src=x>"}).content.decode()
    assert "<script>x" not in page and "<img src=x" not in page


@pytest.mark.parametrize("was", ['{"note": ["x"], "no_field": ["y"]}', '{"note": [null, 1]}', json.dumps({})])
def test_a_made_up_version_changes_no_more_than_its_sender_may(owner, job, was):
    url = f"/jobs/{job.pk}/edit/"
    sent = opened(owner, url)
    assert owner.press(url, {**sent, "note": "mine", "drawn": was}).status_code in (303, 422)
    job.refresh_from_db()
    assert job.title == "Weld the sill"


@pytest.fixture
def clients(cast):
    return [signed_in(cast.owner) for _ in range(8)]


@pytest.fixture
def file_database(job, clients, tmp_path, monkeypatch):
    if connection.vendor == "sqlite":
        file = tmp_path / "garage.sqlite3"
        with connection.cursor() as cursor:
            cursor.execute("VACUUM INTO %s", [str(file)])
        monkeypatch.setitem(connections.databases, "default", {**connections.databases["default"], "NAME": str(file)})


@pytest.mark.django_db(transaction=True)
def test_of_eight_at_the_same_moment_one_writes_and_seven_see_what_he_wrote(job, clients, file_database):
    url, start, answers = f"/jobs/{job.pk}/edit/", threading.Barrier(8), []
    sent = opened(clients[0], url)

    def write(number):
        start.wait()
        try:
            answer = clients[number].post(url, {**sent, "note": f"note {number}", "key": str(uuid.uuid4())})
            answers.append((answer.status_code, number, answer.content.decode()))
        finally:
            connection.close()

    threads = [threading.Thread(target=write, args=[number]) for number in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(status for status, _, _ in answers) == [303] + [422] * 7
    (winner,) = [number for status, number, _ in answers if status == 303]
    assert all(f"note {winner}" in page for status, _, page in answers if status == 422)
    if connection.vendor != "sqlite":
        assert Job.objects.get(pk=job.pk).note == f"note {winner}"
