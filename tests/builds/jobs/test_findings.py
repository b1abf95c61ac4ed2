"""Something found while a job is in hand becomes a job that knows where it was found."""

import pytest

from builds.photos.pages.subjects import photos_of
from builds.readings.actions.order import draw_order
from builds.work.models.finding import Finding
from builds.work.models.job import Job
from builds.work.models.link import Link
from garage.models import Photo
from tests.factories import EntryFactory, EventFactory, JobFactory, SkillFactory, VehicleFactory
from tests.pictures import as_file, jpeg

pytestmark = pytest.mark.usefixtures("now")


@pytest.fixture
def job(cast):
    car = VehicleFactory(garage=cast.garage, name="Heron")
    return JobFactory(vehicle=car, title="Fit the fan", state="in_hand")


def found(client, job, **data):
    return client.press(f"/jobs/{job.pk}/found/", data)


def test_one_line_opens_a_job_on_the_same_car(helper, cast, job):
    answer = found(helper, job, line="Chafed hose")
    opened = Job.objects.exclude(pk=job.pk).get()
    assert answer["Location"] == f"/jobs/{opened.pk}/?effect={opened.pk}"
    assert (opened.title, opened.vehicle, opened.found_in) == ("Chafed hose", job.vehicle, job)
    assert (opened.rank, opened.likely_minutes, opened.made_by) == ("needed", 60, cast.helper)
    finding = Finding.objects.get()
    assert (finding.during, finding.opened, finding.hurts) == (job, opened, False)
    assert "Fit the fan" in helper.get(f"/jobs/{opened.pk}/").content.decode()
    assert [card.title for card in helper.get(f"/jobs/{job.pk}/").context["view"].opened] == ["Chafed hose"]


def test_the_tick_makes_it_safety(helper, job):
    found(helper, job, line="Cracked bracket", hurts="on")
    assert Job.objects.get(title="Cracked bracket").rank == "safety"
    assert Finding.objects.get().hurts


@pytest.mark.parametrize(
    ("line", "systems"),
    [("Cracked track rod end", ["steering"]), ("Throttle sticks", ["engine"])],
)
def test_the_line_says_what_it_touches_and_that_it_hurts(helper, job, line, systems):
    Job.objects.filter(pk=job.pk).update(systems=["cooling"])
    found(helper, job, line=line)
    opened = Job.objects.get(title=line)
    assert (opened.systems, opened.rank) == (systems, "safety")


@pytest.mark.parametrize(
    ("line", "kinds", "long"),
    [
        ("Second crack at trailing arm bracket, runs into the sill", "chassis_weld", "5 h"),
        ("Cracked arm bracket", "part_weld", "1 h"),
        ("Paint flakes off", None, "1 h"),
    ],
)
def test_a_crack_found_while_welding_is_welded_by_whoever_welds_there(helper, cast, job, line, kinds, long):
    hot = SkillFactory(garage=cast.garage, slug="hot", name="Hot hands")
    Job.objects.filter(pk=job.pk).update(systems=["suspension"], kinds=["part_weld", "hot_work"], skill=hot)
    answer = found(helper, job, line=line)
    opened = Job.objects.get(title=line)
    assert (kinds in opened.kinds) is (kinds is not None) and opened.kinds_likely
    assert (opened.skill == hot) is (kinds is not None)
    (said,) = helper.get(answer["Location"]).context["messages"]
    assert str(said) == f"{line}: written down as {opened.rank}, about {long}: a guess."


def test_a_turret_rusted_through_is_welded_before_the_shock_goes_on_it(helper, cast, job):
    """For safety, by whoever welds, whatever the job was in which somebody saw it."""
    weld = SkillFactory(garage=cast.garage, slug="weld", name="Welding")
    Job.objects.filter(pk=job.pk).update(
        title="N/S rear shock leaks", systems=["suspension"], kinds=["spring_change", "joint_opened"]
    )
    found(helper, job, line="shock turret rusted through, daylight showing")
    opened = Job.objects.get(found_in=job)
    assert (opened.rank, opened.kinds, opened.skill) == ("safety", ["chassis_weld"], weld)
    assert Link.objects.get(before=opened, after=job).why == "the metal is sound before anything is bolted to it"


def test_what_is_found_at_a_strip_down_is_done_once_that_is_apart(helper, job):
    """Not by another pair of hands at the same corner in the same hour."""
    Job.objects.filter(pk=job.pk).update(systems=["brakes", "wheels"], kinds=["wheel_off", "hydraulics_opened"])
    found(helper, job, line="Caliper slide pin is dry")
    opened = Job.objects.get(title="Caliper slide pin is dry")
    assert opened.kinds == ["hydraulics_opened"]
    draw_order(job.vehicle)
    assert [(link.before, link.why) for link in opened.links_before.all()] == [
        (job, "taken apart before it is built up")
    ]


@pytest.mark.parametrize(
    ("line", "rank", "systems", "kinds"),
    [
        ("petrol dripping from the tank union", "safety", ["fuel"], ["fuel_line"]),
        ("coolant weeps at the pump", "needed", ["cooling"], ["coolant"]),
        ("front brake hose chafed through to the cord", "safety", ["brakes"], ["hydraulics_opened"]),
        ("it does not look right there", "safety", [], []),
    ],
)
def test_what_is_found_at_a_weld_is_no_weld_and_no_welder_is_asked_for(helper, cast, job, line, rank, systems, kinds):
    """What a line that names nothing touches nobody has said; it is no less grave than where it was found."""
    SkillFactory(garage=cast.garage, name="Welding", slug="weld")
    Job.objects.filter(pk=job.pk).update(
        title="Weld the hanger", systems=["exhaust", "suspension"], kinds=["hot_work", "joint_opened"], rank="safety"
    )
    found(helper, job, line=line)
    opened = Job.objects.get(title=line)
    assert (opened.rank, opened.systems, opened.kinds, opened.skill) == (rank, systems, kinds, None)
    draw_order(job.vehicle)
    assert [(link.after, link.why) for link in opened.links_after.filter(after=job)] == (
        [(job, "what is wrong with the fuel is found before any spark")] if "fuel" in systems else []
    )


def test_the_message_says_how_it_ranks_and_what_it_does_to_the_plan(helper, job):
    EntryFactory(event=EventFactory(garage=job.vehicle.garage), vehicle=job.vehicle)
    answer = found(helper, job, line="Cracked bracket", hurts="on")
    said = [str(each) for each in helper.get(answer["Location"]).context["messages"]]
    assert said[0] == "Cracked bracket: written down as safety, about 1 h: a guess."
    assert said[1].startswith("It finds no place in the plan.")


@pytest.mark.parametrize("strange", ["x", "9" * 40, "0", "-1"])
def test_a_strange_effect_in_the_address_says_nothing(helper, job, strange):
    for address in (f"?effect={strange}", f"?effect={job.pk}&stood={strange}"):
        answer = helper.get(f"/jobs/{job.pk}/{address}")
        assert answer.status_code == 200 and not list(answer.context["messages"])


def test_the_effect_of_another_garages_job_is_not_told(helper, cast, job):
    theirs = JobFactory(vehicle=VehicleFactory(garage=cast.stranger.garage))
    EntryFactory(event=EventFactory(garage=job.vehicle.garage), vehicle=job.vehicle)
    answer = helper.get(f"/jobs/{job.pk}/?effect={theirs.pk}")
    assert not list(answer.context["messages"])


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("", "This field is required."),
        ("x" * 10_000, "Ensure this value has at most 120 characters (it has 10000)."),
    ],
)
def test_what_is_wrong_is_said_at_the_line_and_the_tick_is_kept(helper, job, line, sentence):
    answer = found(helper, job, line=line, hurts="on")
    assert (answer.status_code, answer.context["form"].errors["line"]) == (422, [sentence])
    assert answer.context["form"]["hurts"].value()
    assert Job.objects.count() == 1


def test_a_double_tap_finds_one_thing(helper, job):
    data = {"line": "Chafed hose", "key": "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"}
    for _ in range(2):
        assert helper.post(f"/jobs/{job.pk}/found/", data).status_code == 303
    assert Finding.objects.count() == 1


def test_who_may(cast, job):
    wanted = {"owner": 303, "helper": 303, "viewer": 403, "stranger": 404, "nobody": 302}
    for who, status in wanted.items():
        assert found(cast.client(who), job, line=who).status_code == status
    assert set(Finding.objects.values_list("line", flat=True)) == {"owner", "helper"}


class TestWithPhotos:
    @pytest.fixture(autouse=True)
    def photo_dir(self, settings, tmp_path):
        settings.PHOTO_DIR = tmp_path
        return tmp_path

    def test_they_are_on_the_new_job_from_the_camera_and_chosen(self, helper, job):
        answer = found(
            helper, job, line="Cracked bracket", camera=jpeg("a.jpg"), pictures=[jpeg("b.jpg"), jpeg("c.jpg")]
        )
        opened = Job.objects.get(title="Cracked bracket")
        assert [tie.photo.caption for tie in photos_of(opened)] == ["Cracked bracket"] * 3
        assert helper.get(answer["Location"]).content.decode().count("/small.jpg") == 3

    def test_sent_again_it_is_one_finding_with_one_photo(self, helper, job, photo_dir):
        key = "7f1d3a52-7f0b-4c0e-9d6b-0a2f6f2d3c11"
        answers = [found(helper, job, line="Cracked bracket", pictures=jpeg(), key=key) for _ in range(3)]
        assert {answer["Location"] for answer in answers} == {answers[0]["Location"]}
        assert (Finding.objects.count(), Photo.objects.count()) == (1, 1)
        assert len([file for file in photo_dir.rglob("*") if file.is_file()]) == 2

    def test_a_picture_that_is_none_holds_no_finding_back(self, helper, job):
        sent = [as_file(b"GIF89a not really", "bad.gif"), jpeg("good.jpg")]
        answer = found(helper, job, line="Cracked bracket", hurts="on", pictures=sent)
        seen = helper.get(answer["Location"]).content.decode()
        assert "bad.gif is not a JPEG, PNG or WebP picture" in seen
        opened = Job.objects.get(title="Cracked bracket")
        assert (opened.rank, photos_of(opened).count()) == ("safety", 1)

    def test_without_its_line_nothing_is_kept(self, helper, job, photo_dir):
        assert found(helper, job, line="", pictures=jpeg()).status_code == 422
        assert not Photo.objects.exists() and not [file for file in photo_dir.rglob("*") if file.is_file()]

    @pytest.mark.parametrize(("many", "status"), [(20, 303), (21, 422)])
    def test_twenty_and_no_more(self, helper, job, many, status):
        sent = [jpeg(f"{number}.jpg") for number in range(many)]
        assert found(helper, job, line="Cracked bracket", pictures=sent).status_code == status

    def test_a_viewer_sends_none(self, viewer, job, photo_dir):
        assert found(viewer, job, line="x", pictures=jpeg()).status_code == 403
        assert not [file for file in photo_dir.rglob("*") if file.is_file()]
