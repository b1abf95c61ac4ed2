"""A list of jobs pasted: what its lines say, looked at before anything is written, copied from another car."""

import pytest

from builds.jobs.engine import GUESS, MOST_LETTERS, MOST_LINES, MOST_OF_A_LINE, read_list, written_out
from builds.work.models.job import MOST_MINUTES, Job
from garage.engine.systems import SYSTEMS
from tests.factories import JobFactory, VehicleFactory

LIST = """1. New front pads; 1:30; Brakes
- Clean the loom 45 min

* Fit the splitter\t2 h\twanted
"""


def read(text):
    return read_list(text, MOST_MINUTES)


@pytest.mark.parametrize(
    ("line", "title", "minutes", "systems", "rank"),
    [
        ("New front pads; 1:30; Brakes", "New front pads", 90, ("brakes",), ""),
        ("Clean the loom 45 min", "Clean the loom", 45, ("electrics",), ""),
        ("[x] Clean the shelf (2 hours)", "Clean the shelf", 120, (), ""),
        ("Fit the splitter\t2 h\twanted", "Fit the splitter", 120, ("body",), "wanted"),
        ("12) Set the tie rod; safety; 0,5", "Set the tie rod", 30, ("steering",), "safety"),
        ("Drill for M8 x 20", "Drill for M8 x 20", GUESS, (), ""),
        ("Doors; engine, body", "Doors", GUESS, ("engine", "body"), ""),
        ("Repair the trailer cable 2 m", "Repair the trailer cable 2 m", GUESS, (), ""),
    ],
)
def test_a_line_says_a_job(line, title, minutes, systems, rank):
    [job] = read(line)
    assert (job.title, job.minutes, job.systems, job.rank) == (title, minutes, systems, rank)


def test_what_is_guessed_is_said():
    said, guessed = read("Pads; 1:30; brakes\nBleed the brakes")
    assert (said.guessed_length, said.guessed_systems) == (False, False)
    assert (guessed.guessed_length, guessed.guessed_systems) == (True, True)


def test_a_title_stands_once_and_empty_lines_say_nothing():
    assert [job.title for job in read("Pads\n\n  \npads\nLoom")] == ["Pads", "Loom"]


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("Pads\nLoom; blue", "Line 2: “blue” is no length such as 1:30 or 45 min, no part of a car and no rank."),
        ("; 1:30", "Line 1: it does not say what is to be done."),
        ("x" * (MOST_LETTERS + 1), f"Line 1: at most {MOST_LETTERS} letters say what is to be done."),
        (f"Pads; {MOST_MINUTES // 60}:01", "Line 1: a job takes at most"),
        ("\n".join(f"Job {number}" for number in range(MOST_LINES + 1)), f"At most {MOST_LINES} jobs at once."),
    ],
)
def test_a_line_that_is_not_understood_is_named(text, wrong):
    with pytest.raises(ValueError, match=wrong.split("(")[0]):
        read(text)


def test_as_much_as_may_be_is_read():
    assert read(f"Pads; {MOST_MINUTES // 60}:00")[0].minutes == MOST_MINUTES
    assert len(read("\n".join(f"Job {number}" for number in range(MOST_LINES)))) == MOST_LINES
    assert len(read("x" * MOST_LETTERS)) == 1


def test_what_is_written_out_is_read_back():
    line = written_out("Pads; front", 95, ["brakes", "wheels"], "safety")
    [job] = read(line)
    assert (job.title, job.minutes, job.systems, job.rank) == ("Pads, front", 95, ("brakes", "wheels"), "safety")


@pytest.mark.parametrize(
    ("line", "rank"),
    [("Throttle sticks", "safety"), ("Throttle sticks; wanted", "wanted"), ("Kill switch", "safety"), ("Polish", "")],
)
def test_a_title_ranks_as_what_hurts_where_nobody_ranked_it(line, rank):
    assert [job.rank for job in read(line)] == [rank]


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
@pytest.mark.parametrize(
    ("text", "wrong"),
    [("", "type one job a line"), ("Pads; blue", "“blue” is no length"), ("Pads; brakes; wanted", "")],
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


@pytest.mark.parametrize("gap", [" ", ",", "("])
def test_a_line_has_a_longest(gap):
    """Checked before anything is looked for in it: what is looked for takes longer the more gaps there are."""
    line = f"Pads; {gap * (MOST_OF_A_LINE - 10)}1:30"
    with pytest.raises(ValueError, match=f"Line 2: at most {MOST_OF_A_LINE} letters"):
        read(f"Loom\n{line}.")
    if gap == " ":
        assert [job.minutes for job in read(line)] == [90]


def test_a_line_holds_the_longest_that_is_copied():
    [job] = read(written_out("a" * MOST_LETTERS, MOST_MINUTES, SYSTEMS, "needed"))
    assert (job.minutes, job.systems) == (MOST_MINUTES, tuple(SYSTEMS))


def test_work_of_no_length_is_copied_as_that():
    [job] = read(written_out("Look once more", 0, [], ""))
    assert (job.minutes, job.guessed_length) == (0, False)
