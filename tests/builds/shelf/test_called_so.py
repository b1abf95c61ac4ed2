"""A part on the shelf and a want in words of the same name find each other: nothing is wanted that is here."""

import pytest

from builds.shelf.actions import shelf
from builds.work.models.need import Need
from garage.actions import people
from garage.actions.people import CarLimits
from tests.builds.verdict.fit_kit import FINE, INCH
from tests.factories import NOW, JobFactory, VehicleFactory
from tests.pages import words
from tests.parts.factories import PartFactory, PlaceFactory

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("now")]


@pytest.fixture
def job(cast):
    return JobFactory(vehicle=VehicleFactory(garage=cast.garage, name="Wren"), title="Fit the rear lamps")


@pytest.fixture
def asked(job):
    return Need.objects.create(job=job, what="rear lamps", quantity=2, asked_at=NOW.replace(hour=1))


@pytest.fixture
def lamp(cast):
    part = PartFactory(garage=cast.garage, name="Rear lamp")
    shelf.carry_out(part, "receive", quantity=2, target=PlaceFactory(garage=cast.garage), by=cast.owner, at=NOW)
    return part


def pull(cast, part, job, quantity=2):
    source = part.balances.get(quantity__gt=0, place__kind="shelf").place
    return shelf.carry_out(part, "pull", quantity=quantity, source=source, job=job, by=cast.owner, at=NOW)


def who_wants(owner, part):
    return words(owner.get(f"/parts/{part.pk}/").content.decode()).split("Who wants it")[1].split("What it fits")[0]


def test_what_is_pulled_for_a_job_is_what_the_job_asked_for_in_words(cast, owner, job, asked, lamp):
    pull(cast, lamp, job)
    need = Need.objects.get(job=job)
    assert (need.pk, need.part, need.quantity, need.got_at) == (asked.pk, lamp, 2, NOW)
    assert "to find" not in words(owner.get(f"/jobs/{job.pk}/").content.decode())


def test_half_of_it_is_not_all_of_it(cast, job, asked, lamp):
    pull(cast, lamp, job, quantity=1)
    need = Need.objects.get(job=job)
    assert (need.part, need.got_at) == (lamp, None)


def test_what_was_said_to_be_here_is_not_here_twice(cast, job, asked, lamp):
    Need.objects.filter(pk=asked.pk).update(got_at=NOW)
    pull(cast, lamp, job)
    assert Need.objects.get(job=job).part == lamp


def test_another_thing_is_one_thing_more(cast, job, asked):
    glove = PartFactory(garage=cast.garage, name="Front lamp")
    shelf.carry_out(glove, "receive", quantity=1, target=PlaceFactory(garage=cast.garage), by=cast.owner, at=NOW)
    pull(cast, glove, job, quantity=1)
    assert sorted(need.what for need in Need.objects.filter(job=job)) == ["Front lamp", "rear lamps"]


def test_what_fits_not_is_one_thing_more(cast, job):
    bolt = PartFactory(garage=cast.garage, name="Hub bolt", interfaces=FINE)
    shelf.carry_out(bolt, "receive", quantity=1, target=PlaceFactory(garage=cast.garage), by=cast.owner, at=NOW)
    asked = Need.objects.create(job=job, what="hub bolt", fit=INCH, asked_at=NOW)
    pull(cast, bolt, job, quantity=1)
    asked.refresh_from_db()
    assert (asked.part, asked.got_at) == (None, None)


def test_a_part_written_down_for_a_job_answers_what_it_asked_for(cast, job, asked):
    place = PlaceFactory(garage=cast.garage)
    part, _ = shelf.write_down(
        cast.garage, by=cast.owner, at=NOW, quantity=2, target=place, job=job, name="Rear lamp", condition="good"
    )
    assert Need.objects.get(job=job).part == part


def test_the_part_says_who_looks_for_it_and_one_tap_says_that_it_is_this(owner, job, asked, lamp):
    told = who_wants(owner, lamp)
    assert "Fit the rear lamps" in told and "looks for “rear lamps”, 2 of them" in told and "No open job" not in told
    assert owner.press(f"/needs/{asked.pk}/part/", {"part": lamp.pk}).status_code == 303
    told = who_wants(owner, lamp)
    assert "looks for" not in told and "Fit the rear lamps" in told


def test_who_does_not_work_on_that_car_reads_it_and_has_no_button(cast, helper, viewer, job, asked, lamp):
    act, path = f'action="/needs/{asked.pk}/part/"', f"/parts/{lamp.pk}/"
    assert act in helper.get(path).content.decode()
    person = cast.helper.person
    people.change(
        cast.helper, role="helper", skills=(), works=True, may_sign=True, cars=CarLimits(every_car=False),
        name=person.name, surname=person.surname, email=person.email,
    )  # fmt: skip
    for reader in (helper, viewer):
        page = reader.get(path).content.decode()
        assert "looks for “rear lamps”" in words(page) and act not in page


def test_the_job_says_what_the_shelf_has_by_that_name(owner, job, asked, lamp):
    page = owner.get(f"/jobs/{job.pk}/").content.decode()
    assert "On the shelf: 2 pieces of Rear lamp. Is it this?" in words(page) and f"/needs/{asked.pk}/part/" in page


def test_nobody_is_told_of_a_part_called_otherwise(owner, job, asked, cast):
    other = PartFactory(garage=cast.garage, name="Front lamp")
    shelf.carry_out(other, "receive", quantity=1, target=PlaceFactory(garage=cast.garage), by=cast.owner, at=NOW)
    assert "No open job" in who_wants(owner, other)
    assert "Is it this?" not in words(owner.get(f"/jobs/{job.pk}/").content.decode())


def test_a_pull_is_for_the_job_that_looks_for_it(owner, job, asked, lamp):
    assert f'<option value="{job.pk}" selected' in owner.get(f"/parts/{lamp.pk}/move/pull/").content.decode()


@pytest.mark.parametrize(
    ("wants", "name", "answered"),
    [
        (["tyres"], "Hill climb tyre, soft, 13 in", "tyres"),
        (["tyres", "rear lamps"], "Wet tyres 13 in", "tyres"),
        (["tyres", "tyre"], "Hill climb tyre, soft", None),  # which of the two is not said
        (["tyres"], "Tyre gauge", None),
        (["tyres"], "Gauge for tyres", None),
        (["oil"], "Oil filter", None),
    ],
)
def test_a_want_of_one_word_is_answered_by_such_a_thing_that_is_pulled_for_its_job(
    cast, owner, job, wants, name, answered
):
    for what in wants:
        Need.objects.create(job=job, what=what, quantity=4, asked_at=NOW.replace(hour=1))
    part = PartFactory(garage=cast.garage, name=name)
    shelf.carry_out(part, "receive", quantity=4, target=PlaceFactory(garage=cast.garage), by=cast.owner, at=NOW)
    assert "No open job" in who_wants(owner, part)  # nobody says so of it before it is in the hand
    pull(cast, part, job, quantity=4)
    here = {need.what for need in Need.objects.filter(job=job, part=part, got_at=NOW)}
    assert here == {answered or name}
    assert ("to find" in words(owner.get(f"/jobs/{job.pk}/").content.decode())) == (len(wants) > 1 or not answered)
