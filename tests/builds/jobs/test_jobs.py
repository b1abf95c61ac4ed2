"""Jobs: written down, changed, read; what is typed wrong is said at its field and kept."""

import pytest

from builds.work.models.job import Job, JobStation
from builds.work.models.states import State
from tests.conftest import queries
from tests.factories import (
    NOW,
    JobFactory,
    JobStationFactory,
    LinkFactory,
    SkillFactory,
    StationFactory,
    VehicleFactory,
)

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron", tape="green")


def typed(car, **more):
    """What the form sends; only title, car and the likely figure must be there."""
    plain = {"title": "Fit the fan", "vehicle": car.pk, "likely": "1.5", "hands": "1"}
    return {**plain, "weight": "1", "splits": "on", **more}


def add(client, car, **more):
    return client.press(f"/cars/{car.pk}/jobs/add/", typed(car, **more))


def test_three_fields_are_enough_and_the_outer_figures_follow(owner, car, cast):
    answer = add(owner, car)
    job = Job.objects.get()
    assert answer.status_code == 303
    assert answer["Location"] == f"/jobs/{job.pk}/?effect={job.pk}"
    assert (job.low_minutes, job.likely_minutes, job.high_minutes) == (67, 90, 135)
    assert (job.rank, job.state, job.made_by, job.made_at) == ("needed", "open", cast.owner, NOW)
    assert "Fit the fan" in owner.get(f"/jobs/{job.pk}/").content.decode()


@pytest.mark.parametrize(
    ("likely", "minutes"), [("1.5", 90), ("1,5", 90), ("1:30", 90), ("90 min", 90), ("1 h 30", 90)]
)
def test_work_is_typed_as_people_say_it(owner, car, likely, minutes):
    add(owner, car, likely=likely)
    assert Job.objects.get().likely_minutes == minutes


def test_everything_else_is_kept_too(owner, car, cast):
    skill = SkillFactory(garage=cast.garage, slug="weld")
    bay = StationFactory(garage=cast.garage, slug="bay")
    more = {
        "skill": skill.pk,
        "stations": [bay.pk],
        "hands": "2",
        "weight": "7",
        "note": "Mind the loom.",
        "kinds": ["wheel_off"],
        "earliest_at": "2027-03-04T18:00",
        "pinned_at": "2027-03-05T18:30",
    }
    assert add(owner, car, splits="", **more).status_code == 303
    job = Job.objects.get()
    assert (job.skill, job.hands, job.weight, job.splits) == (skill, 2, 7, False)
    assert (job.note, job.kinds) == ("Mind the loom.", ["wheel_off"])
    assert [use.station for use in job.uses.all()] == [bay]
    assert f"{job.earliest_at:%d %H:%M} {job.pinned_at:%d %H:%M}" == "04 18:00 05 18:30"


def test_a_safety_system_makes_a_safety_job(owner, car):
    add(owner, car, systems=["steering", "body"])
    assert Job.objects.get().rank == "safety"


def test_a_rank_is_raised_freely(owner, car):
    add(owner, car, systems=["body"], rank="safety")
    assert Job.objects.get().rank == "safety"


def test_a_rank_is_lowered_only_with_a_reason_that_stays_on_the_page(owner, car):
    refused = add(owner, car, systems=["brakes"], rank="wanted")
    assert refused.status_code == 422
    assert refused.context["form"].errors["lowered_because"] == [
        "This job touches brakes: write down why it may rank below safety."
    ]
    assert not Job.objects.exists()
    add(owner, car, systems=["brakes"], rank="wanted", lowered_because="Only a sticker.")
    job = Job.objects.get(title="Fit the fan")
    assert (job.rank, job.lowered_because) == ("wanted", "Only a sticker.")
    assert "Only a sticker." in owner.get(f"/jobs/{job.pk}/").content.decode()


def test_taking_the_safety_system_off_asks_for_a_reason_too(owner, car):
    job = JobFactory(vehicle=car, systems=["steering"], rank="safety")
    refused = owner.press(f"/jobs/{job.pk}/edit/", typed(car))
    assert refused.context["form"].errors["lowered_because"] == [
        "This is a safety job: write down why it may rank below safety."
    ]
    owner.press(f"/jobs/{job.pk}/edit/", typed(car, lowered_because="It was the wrong system."))
    job.refresh_from_db()
    assert (job.rank, job.lowered_because, job.was_safety) == ("needed", "It was the wrong system.", True)


def test_a_reason_goes_when_the_job_is_safety_again(owner, car):
    job = JobFactory(vehicle=car, systems=["steering"], rank="wanted", lowered_because="A sticker.")
    owner.press(f"/jobs/{job.pk}/edit/", typed(car, systems=["steering"], lowered_because="x"))
    job.refresh_from_db()
    assert (job.rank, job.lowered_because) == ("safety", "")


def test_what_work_takes_is_said_in_hours(owner, car):
    job = JobFactory(vehicle=car, low_minutes=3000, likely_minutes=3120, high_minutes=4680)
    page = owner.get(f"/jobs/{job.pk}/").content.decode()
    assert "<dd>52 h</dd>" in page and "<dd>50 h / 78 h</dd>" in page


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("title", "", "This field is required."),
        ("title", "x" * 10_000, "Ensure this value has at most 120 characters (it has 10000)."),
        ("title", "a\0b", "Null characters are not allowed."),
        ("likely", "soon", "Write a time such as 1.5, 1:30, 90 min or 1 h 30."),
        ("likely", "9999:00", "At most 60 d."),
        ("low", "2 h", "If it goes well it takes no longer than the likely 1 h 30."),
        ("high", "30 min", "If it fights back it takes no less than the likely 1 h 30."),
        ("hands", "12", "Ensure this value is less than or equal to 9."),
        ("skill", "999999", "That is not in this garage: choose from the list."),
        ("vehicle", "999999", "That is not in this garage: choose from the list."),
        (
            "earliest_at",
            "tomorrow",
            "Write a date and a time, such as 2027-05-14 07:30.",
        ),
        ("earliest_at", "0001-01-01T00:00", "That year is too far away."),
        ("pinned_at", "9999-12-31T23:59", "That year is too far away."),
        (
            "systems",
            "magic",
            "Select a valid choice. magic is not one of the available choices.",
        ),
    ],
)
def test_what_is_wrong_is_said_at_its_field_and_what_was_typed_is_kept(owner, car, field, value, sentence):
    answer = add(owner, car, note="Kept as typed", **{field: value})
    assert answer.status_code == 422
    assert answer.context["form"].errors[field] == [sentence]
    assert "Kept as typed" in answer.content.decode()
    assert not Job.objects.exists()


def test_a_job_for_nobody_asks_for_no_skill(owner, car, cast):
    skill = SkillFactory(garage=cast.garage)
    answer = add(owner, car, hands="0", skill=skill.pk)
    assert answer.context["form"].errors["skill"] == ["A job that needs nobody cannot ask for a skill."]


def test_a_pinned_start_is_not_before_the_earliest(owner, car):
    answer = add(owner, car, earliest_at="2027-03-05T18:00", pinned_at="2027-03-04T18:00")
    assert answer.context["form"].errors["pinned_at"] == ["It cannot start before the moment in Not before."]


def test_another_garages_car_skill_and_station_are_refused(owner, car, stranger, cast):
    theirs = VehicleFactory(garage=cast.stranger.garage)
    skill = SkillFactory(garage=cast.stranger.garage)
    bay = StationFactory(garage=cast.stranger.garage)
    answer = add(owner, car, vehicle=theirs.pk, skill=skill.pk, stations=[bay.pk])
    assert set(answer.context["form"].errors) == {"vehicle", "skill", "stations"}
    assert owner.press(f"/cars/{theirs.pk}/jobs/add/", typed(car)).status_code == 404
    assert not Job.objects.exists()


def test_markup_in_a_name_is_text(owner, car):
    add(owner, car, title="<b onclick=alert(1)>Weld</b>", note="<script>x</script>")
    page = owner.get(f"/jobs/{Job.objects.get().pk}/").content.decode()
    assert "<b onclick" not in page and "<script>x" not in page
    assert "&lt;b onclick=alert(1)&gt;Weld&lt;/b&gt;" in page


def test_editing_keeps_state_units_and_what_is_not_on_the_form(owner, car):
    job = JobFactory(vehicle=car, state=State.HELD, state_note="no gasket", recipe="clutch-gearbox")
    use = JobStationFactory(job=job, units=3)
    data = typed(car, title=f"{job}, left", stations=[use.station_id])
    assert owner.press(f"/jobs/{job.pk}/edit/", data).status_code == 303
    job.refresh_from_db()
    assert (job.title, job.state, job.state_note) == (data["title"], "held", "no gasket")
    assert job.recipe == "clutch-gearbox"
    assert JobStation.objects.get(job=job).units == 3


def test_the_form_of_a_job_draws_what_it_has_so_that_sending_it_back_changes_nothing(owner, car):
    job = JobFactory(vehicle=car, low_minutes=45, likely_minutes=4500, high_minutes=5000)
    form = owner.get(f"/jobs/{job.pk}/edit/").context["form"]
    drawn = {name: form[name].value() for name in ("low", "likely", "high", "rank")}
    assert drawn == {"low": "45 min", "likely": "75:00", "high": "83:20", "rank": ""}
    owner.press(f"/jobs/{job.pk}/edit/", typed(car, **drawn))
    job.refresh_from_db()
    assert (job.low_minutes, job.likely_minutes, job.high_minutes) == (45, 4500, 5000)


def test_what_begun_work_touched_is_taken_off_by_the_owner_alone(owner, helper, car):
    job = JobFactory(vehicle=car, state=State.DONE, kinds=["crash"], systems=["wheels"])
    page = helper.press(f"/jobs/{job.pk}/edit/", typed(car, systems=["wheels"], kinds=[]))
    said = str(page.context["form"].errors["kinds"])
    assert "Crash or kerb strike. Only the owner takes it off." in said
    page = helper.press(f"/jobs/{job.pk}/edit/", typed(car, systems=[], kinds=["crash"]))
    assert page.status_code == 422
    more = typed(car, systems=["wheels", "body"], kinds=["crash", "paint"])
    assert helper.press(f"/jobs/{job.pk}/edit/", more).status_code == 303
    gone = typed(car, systems=["wheels"], kinds=[])
    page = owner.press(f"/jobs/{job.pk}/edit/", gone)
    assert "Say in words why this was not: crash or kerb strike" in str(page.context["form"].errors["because"])
    gone |= {"because": "it was the other car"}
    assert owner.press(f"/jobs/{job.pk}/edit/", gone).status_code == 303
    job.refresh_from_db()
    assert (job.kinds, job.systems) == ([], ["wheels"])


def test_left_by_hand_replaces_the_reckoned_figure(owner, car):
    job = JobFactory(vehicle=car)
    owner.press(f"/jobs/{job.pk}/edit/", typed(car, left_minutes="2 h"))
    assert owner.get(f"/jobs/{job.pk}/").context["view"].left == "about 2 h left"


def test_who_may(cast, car):
    job = JobFactory(vehicle=car)
    seen = {"owner": 200, "helper": 200, "viewer": 200, "stranger": 404, "nobody": 302}
    written = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in seen.items():
        assert cast.client(who).get(f"/jobs/{job.pk}/").status_code == status
    for who, status in written.items():
        client = cast.client(who)
        assert client.press(f"/jobs/{job.pk}/edit/", typed(car)).status_code == status
        assert add(client, car).status_code == status
    assert Job.objects.count() == 3
    assert "/edit/" not in cast.client("viewer").get(f"/jobs/{job.pk}/").content.decode()


def test_a_double_tap_writes_one_job(owner, car):
    data = {**typed(car), "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    answers = [owner.post(f"/cars/{car.pk}/jobs/add/", data) for _ in range(2)]
    assert [answer.status_code for answer in answers] == [303, 303]
    assert answers[0]["Location"] == answers[1]["Location"]
    assert Job.objects.count() == 1


def test_the_page_names_cautions_and_whose_urgency_it_carries(owner, car):
    strip = JobFactory(vehicle=car, title="Strip the front", kinds=["wheel_off"])
    weld = JobFactory(vehicle=car, title="Weld the arm", rank="needed")
    align = JobFactory(vehicle=car, title="Align the front", rank="safety", systems=["steering"])
    LinkFactory(before=strip, after=weld)
    LinkFactory(before=weld, after=align, wait_minutes=960, why="the weld cools")
    page = owner.get(f"/jobs/{strip.pk}/")
    assert page.context["view"].urgent == (
        "As urgent as “Align the front” (safety), which waits for it, by way of “Weld the arm”."
    )
    assert any("jack" in text for text in page.context["view"].cautions)
    waits = owner.get(f"/jobs/{align.pk}/").context["view"].waits_for
    assert [(line.title, line.wait, line.why) for line in waits] == [("Weld the arm", "16 h", "the weld cools")]


def test_the_page_takes_as_many_queries_for_much_as_for_little(owner, car):
    job = JobFactory(vehicle=car)

    def hang_on(count):
        for _ in range(count):
            LinkFactory(before=JobFactory(vehicle=car), after=job)
            LinkFactory(before=job, after=JobFactory(vehicle=car))
            JobStationFactory(job=job)
            JobFactory(vehicle=car, found_in=job)

    hang_on(1)
    few = queries(owner, f"/jobs/{job.pk}/")
    hang_on(3)
    assert queries(owner, f"/jobs/{job.pk}/") == few
