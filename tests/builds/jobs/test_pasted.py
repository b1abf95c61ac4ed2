"""A list of jobs pasted: what its lines say, looked at before anything is written, copied from another car."""

from html import unescape

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from builds.jobs.engine.pasted import read_list
from builds.work.models.job import MOST_MINUTES, Job
from builds.work.models.link import Link
from builds.work.models.need import Need
from tests.factories import JobFactory, SkillFactory, VehicleFactory
from tests.pages import words

LIST = """1. New front pads; 1:30; Brakes
- Clean the loom 45 min

* Fit the splitter\t2 h\twanted
"""


def read(text):
    return read_list(text, MOST_MINUTES).jobs


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


def paste(client, car, text, **more):
    return client.press(f"/cars/{car.pk}/jobs/paste/", {"lines": text, **more})


@pytest.mark.usefixtures("now")
def test_a_list_is_looked_at_and_nothing_is_written(helper, car):
    answer = paste(helper, car, LIST)
    body = answer.content.decode()
    assert answer.status_code == 422 and not Job.objects.exists()
    assert "3 jobs, 3 new" in body and "Save 3 jobs" in body
    assert "Electrics, by its words" in body and "1 h 30" in body


@pytest.mark.usefixtures("now")
@pytest.mark.parametrize(("line", "rank"), [("polish headlights", "wanted"), ("fit headlights", "needed")])
def test_what_only_cleans_a_lamp_is_wanted(helper, car, line, rank):
    paste(helper, car, line, step="save")
    assert Job.objects.get().rank == rank


@pytest.mark.usefixtures("now")
def test_it_says_from_when_the_plan_counts_on_the_parts_that_are_wanted(helper, car):
    body = words(paste(helper, car, "New front pads 1 h").content.decode())
    assert (
        "they have 3 days to come, a guess until somebody says when, and the plan puts their jobs after that." in body
    )
    paste(helper, car, "New front pads 1 h", step="want")
    assert Need.objects.get().lead_days == 3


@pytest.mark.usefixtures("now")
def test_saved_it_is_written_down_once_in_its_order(helper, cast, car):
    JobFactory(vehicle=car, title="Clean the LOOM", made_by=cast.owner)
    answer = paste(helper, car, LIST, step="save")
    assert answer["Location"] == f"/cars/{car.pk}/"
    pads, splitter = Job.objects.on(car).exclude(title="Clean the LOOM").order_by("pk")
    assert (pads.title, pads.rank, pads.systems) == ("New front pads", "safety", ["brakes"])
    assert (pads.low_minutes, pads.likely_minutes, pads.high_minutes) == (67, 90, 135)
    assert (splitter.title, splitter.rank, splitter.made_by) == ("Fit the splitter", "wanted", cast.helper)
    assert Job.objects.on(car).count() == 3
    assert "All of them are on Heron already." in paste(helper, car, LIST, step="save").content.decode()
    assert Job.objects.on(car).count() == 3


@pytest.mark.usefixtures("now")
def test_a_line_more_asks_the_database_nothing_more(helper, cast, car):
    SkillFactory(garage=cast.garage, slug="weld", name="Welding")
    welds = [f"Weld bracket {number}" for number in range(4)]
    asked = []
    for lines in (welds[:1], welds[:1], welds):
        with CaptureQueriesContext(connection) as queries:
            assert paste(helper, car, "\n".join(lines)).status_code == 422
        asked.append(len(queries))
    assert asked[1] == asked[2]


LIKE_A_NOTEBOOK = """Saturday:
[x] washed engine bay
torque wheels
change front brake pads 45 min
respray bonnet 3h, cure 24h
polish bonnet after respray @Tom
weld exhaust bracket (2h) after torque wheels
"""


@pytest.mark.usefixtures("now")
def test_what_the_lines_say_beside_is_shown_and_written_down(owner, cast, car):
    welds = SkillFactory(garage=cast.garage, slug="weld", name="Welding")
    drawn = " ".join(unescape(paste(owner, car, LIKE_A_NOTEBOOK).content.decode()).split())
    for said in (
        "Left out, ticked as done: “washed engine bay”. Taken as a heading: “Saturday”.",
        "It is taken to measure wheel torque.",
        "It waits for “respray bonnet”, 24 h after it ends.",
        "“@Tom” is kept as a note: the plan says who does it.",
        "Likely done in it: painted on the car; two-pack paint sprayed.",
        "It asks for the skill “Welding”.",
    ):
        assert said in drawn
    assert paste(owner, car, LIKE_A_NOTEBOOK, step="save").status_code == 303
    torque, pads, coat, polish, weld = Job.objects.on(car).order_by("pk")
    assert (torque.measures, pads.kinds, pads.kinds_likely) == (["wheel_torque"], ["wheel_off", "friction_parts"], True)
    assert (weld.kinds, weld.skill, coat.kinds) == (["hot_work"], welds, ["paint", "two_pack"])
    assert (coat.note, polish.note) == ("cure 24h", "@Tom")
    by_hand = Link.objects.by_hand().values_list("before", "after", "wait_minutes", "why")
    assert set(by_hand) == {(coat.pk, polish.pk, 24 * 60, "cure 24h"), (torque.pk, weld.pk, 0, "")}
    # The pads take the wheels off, so that the wheels are torqued after them.
    assert Link.objects.by_order().filter(before=pads, after=torque).exists()


@pytest.mark.usefixtures("now")
def test_what_was_understood_whole_is_folded_and_both_lengths_are_written_down(owner, cast, car):
    answer = paste(
        owner, car, "pads 2-3 h; brakes\npads again; 2-3 h; brakes\nweigh the car 30 min\nsort it\nBo: oil 1h"
    )
    shown = [[line.title for line in answer.context[name]] for name in ("open_lines", "whole_lines")]
    assert shown == [["sort it"], ["pads", "pads again", "weigh the car", "Bo: oil"]]
    drawn = " ".join(answer.content.decode().split())
    assert (
        "Look at 1 of them:" in drawn
        and "The other 4: all of it was said" in drawn
        and "2 h to 3 h, likely 2 h 30" in drawn
        and "only measured" in drawn
    )
    paste(owner, car, "pads; 2-3 h; brakes\nclean out the boot", step="save")
    pads, boot = Job.objects.on(car).filter(recipe="").order_by("pk")
    assert (boot.rank, boot.systems) == ("wanted", ["body"])
    rear = "new fuel filter 30 min\nN/S rear shock leaks - new pair"
    assert paste(owner, car, rear).context["parts"] == "fuel filter, N/S rear shock (2)"
    paste(owner, car, rear, step="want")
    wanted = Need.objects.order_by("pk").values_list("job__title", "what", "quantity", "lead_days")
    assert list(wanted) == [
        ("new fuel filter", "fuel filter", 1, 3),
        ("N/S rear shock leaks - new pair", "N/S rear shock", 2, 3),
    ]
    paste(owner, car, "replace the fan", step="save")
    fan = Job.objects.get(title="replace the fan")
    assert "By its words it wants “fan”." in owner.get(f"/jobs/{fan.pk}/").content.decode()
    assert owner.get(f"/jobs/{fan.pk}/needs/add/").context["form"]["what"].value() == "fan"
    assert (pads.low_minutes, pads.likely_minutes, pads.high_minutes) == (120, 150, 180)
    named = paste(owner, car, f"{cast.helper.name}: sort it 1h").context["open_lines"]
    assert [(line.title, line.asks) for line in named] == [
        ("sort it", (f"“{cast.helper.name}” is kept as a note: the plan says who does it.",))
    ]


@pytest.mark.usefixtures("now")
@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("", "type one job a line"),
        ("[x] Pads", "All of it is ticked as done already"),
        ("Pads; blue", "“blue” is no length"),
        ("Pads; brakes; wanted", ""),
    ],
)
def test_a_list_with_a_fault_is_kept_and_nothing_is_written(helper, car, text, wrong):
    answer = paste(helper, car, text, step="save")
    assert answer.status_code == 422 and not Job.objects.exists()
    assert wrong in answer.content.decode() and "Save 1 job" not in answer.content.decode()


@pytest.mark.usefixtures("now")
def test_the_list_of_another_car_can_be_copied(owner, cast, car):
    other = VehicleFactory(garage=cast.garage, name="Badger")
    JobFactory(vehicle=other, title="Fit the fan", systems=["cooling"], likely_minutes=90, high_minutes=120)
    JobFactory(vehicle=other, title="Over and done", state="done")
    offered = owner.get(f"/cars/{car.pk}/jobs/paste/").content.decode()
    assert f'href="?from={other.pk}"' in offered and "Badger: 1 job" in " ".join(offered.split())
    drawn = owner.get(f"/cars/{car.pk}/jobs/paste/?from={other.pk}")
    assert drawn.context["form"]["lines"].value() == "Fit the fan; 1:30; Cooling; needed"


@pytest.mark.usefixtures("now")
def test_who_only_looks_pastes_nothing_and_no_stranger_copies(viewer, owner, car):
    assert paste(viewer, car, LIST, step="save").status_code == 403
    strange = VehicleFactory()
    assert owner.get(f"/cars/{car.pk}/jobs/paste/?from={strange.pk}").status_code == 404
    assert not Job.objects.exists()


@pytest.mark.usefixtures("now")
def test_a_wheel_torque_is_written_down_once_however_it_is_typed(helper, car):
    JobFactory(vehicle=car, title="Torque the wheels by hand", measures=["wheel_torque"], recipe="brake-overhaul")
    lines = "Wheels torqued\nNew tyres\nWeld the hanger after wheels torqued\nTorque wheels after the first session"
    body = unescape(paste(helper, car, lines).content.decode())
    there = "is on Heron already as “Torque the wheels by hand”, and stays as it is"
    assert f"<span>{there}</span>" in " ".join(body.split())
    paste(helper, car, lines, step="save")
    tyres, hanger, again = Job.objects.on(car).exclude(recipe="brake-overhaul").order_by("pk")
    assert (tyres.title, again.title) == ("New tyres", "Torque wheels after the first session")
    ahead = Link.objects.get(after=hanger, by_order=False).before
    assert ahead.title == "Torque the wheels by hand"


def test_two_lines_that_say_the_same_measurement_are_one_job():
    typed = "Torque wheels\nWheel nuts torqued\nSet toe\nBleed front brakes\nBleed rear brakes\nCheck toe"
    told = ["Torque wheels", "Set toe", "Bleed front brakes", "Bleed rear brakes", "Check toe"]
    assert [job.title for job in read(typed)] == told
