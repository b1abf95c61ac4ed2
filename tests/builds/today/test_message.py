"""Tonight in five lines, for a chat; and why there is nothing next for somebody."""

from datetime import timedelta
from itertools import pairwise

import pytest

from tests.builds.plan.plan_kit import enter, evenings, job, planned
from tests.factories import NOW, LinkFactory, MembershipFactory, SkillFactory, VehicleFactory


@pytest.fixture
def heron(cast, now):
    return VehicleFactory(garage=cast.garage, name="Heron")


def message(client):
    return client.get("/").context["view"].message


def idle(client, name):
    return next(person.idle for person in client.get("/").context["view"].people if person.name == name)


def test_it_says_where_who_does_what_and_the_next_event(owner, cast, heron):
    evenings(cast.owner, days=[1])
    job(heron, cast, title="Fit the fan")
    enter(heron, NOW + timedelta(days=3))
    planned(cast.garage)
    assert message(owner) == (
        "Quayside Lock-up, Tue 2 Mar",
        "Ines in from 18:00 until 22:00: “Fit the fan” (Heron).",
        "Saltmarsh Hill Climb: leaves Fri 17:00.",
    )


def test_a_full_garage_goes_into_five_lines_and_nobody_is_left_out(owner, cast, heron):
    names = ["Ines", *(f"Friend {number}" for number in range(5))]
    evenings(cast.owner, days=[1])
    for name in names[1:]:
        evenings(MembershipFactory(garage=cast.garage, person__name=name), days=[1])
    enter(heron)
    lines = message(owner)
    assert len(lines) == 5
    assert all(name in "".join(lines) for name in names)


def test_it_has_the_evening_as_the_plan_has_it(owner, cast, heron):
    """As the job cards have it; what is for safety is the last to be cut."""
    evenings(cast.owner, days=[1])
    more = {"low_minutes": 30, "likely_minutes": 30, "high_minutes": 30}
    chain = [
        job(heron, cast, title=title, rank=rank, **more)
        for title, rank in [
            ("Paint the arm", "safety"),
            ("Fit the fan", "needed"),
            ("Wash it", "needed"),
            ("Fit the flap", "needed"),
            ("Sweep up", "needed"),
            ("Sort bolts", "needed"),
            ("Oil the hinges", "needed"),
            ("Fit the belts", "safety"),
        ]
    ]
    for before, after in pairwise(chain):
        LinkFactory(before=before, after=after)
    planned(cast.garage)
    assert message(owner)[1] == (
        "Ines in from 18:00 until 22:00: “Paint the arm” (Heron), then “Fit the fan” (Heron),"
        " then “Wash it” (Heron), then “Fit the flap” (Heron), then “Sweep up” (Heron), then “Fit the belts” (Heron),"
        " then 2 more."
    )
    # Eight in all, on Today as in the message and in the plan.
    assert "Then: 7" in " ".join(owner.get("/").content.decode().split())


def test_past_midnight_it_is_of_the_evening_that_goes_on(owner, cast, heron, monkeypatch):
    evenings(cast.owner, days=[1], since=18, until=24)
    evenings(cast.owner, days=[2], since=0, until=2)
    job(heron, cast, title="Fit the fan", low_minutes=420, likely_minutes=420, high_minutes=420)
    planned(cast.garage)
    monkeypatch.setattr("garage.clock.now", lambda: NOW + timedelta(hours=8))
    head, ines = message(owner)
    assert head == "Quayside Lock-up, Tue 2 Mar" and "“Fit the fan”" in ines


def test_an_empty_evening_says_so(owner, heron):
    assert message(owner)[1:] == ("Nobody is in today.",)


def test_who_looks_copies_no_hours_of_others(owner, viewer, cast, heron):
    job(heron, cast)
    assert "Copy a message" in owner.get("/").content.decode()
    assert "Copy a message" not in viewer.get("/").content.decode()


class TestWhyNothingIsNext:
    def test_no_job_is_open(self, owner, cast, heron):
        job(heron, cast, state="done", finished_at=NOW)
        evenings(cast.helper, days=[1])
        assert idle(owner, "Tove") == "Nothing is next for Tove: no job is open."

    def test_no_hours_are_known(self, owner, cast, heron):
        evenings(cast.owner, days=[1])
        job(heron, cast)
        planned(cast.garage)
        assert idle(owner, "Tove") == "Nothing is next for Tove: no hours are known for today and tomorrow."

    def test_what_stands_against_each_job_is_counted(self, owner, cast, heron):
        evenings(cast.owner, days=[1])
        evenings(cast.helper, days=[1], since=21)
        cast.owner.skills.add(weld := SkillFactory(garage=cast.garage, slug="weld"))
        job(heron, cast, title="Weld the arm", skill=weld, likely_minutes=180, high_minutes=200)
        done = job(heron, cast, title="Paint", state="done", finished_at=NOW)
        LinkFactory(before=done, after=job(heron, cast, title="Refit"), wait_minutes=7 * 24 * 60)
        planned(cast.garage)
        assert idle(owner, "Tove") == (
            "Nothing is next for Tove: of the open jobs 1 asks for a skill that is not Tove’s"
            " and 1 waits until a cure is over."
        )

    def test_what_needs_nobody_is_not_somebody_elses(self, owner, cast, heron):
        evenings(cast.helper, days=[1])
        job(heron, cast, title="Let it harden", hands=0)
        planned(cast.garage)
        assert idle(owner, "Tove") == "Nothing is next for Tove: of the open jobs 1 needs nobody at home."

    def test_who_has_a_job_is_told_no_reason(self, owner, cast, heron):
        evenings(cast.owner, days=[1])
        job(heron, cast)
        planned(cast.garage)
        assert idle(owner, "Ines") == ""
