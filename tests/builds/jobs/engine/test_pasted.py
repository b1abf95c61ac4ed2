"""Lines of a pasted list: what each says of a job."""

import pytest

from builds.jobs.engine.pasted import GUESS, MOST_LETTERS, MOST_LINES, MOST_OF_A_LINE, read_list, written_out
from builds.work.models.job import MOST_MINUTES
from garage.engine.systems import SYSTEMS
from tests.factories import VehicleFactory


def read(text):
    return read_list(text, MOST_MINUTES).jobs


@pytest.fixture
def car(cast):
    return VehicleFactory(garage=cast.garage, name="Heron")


@pytest.mark.parametrize(
    ("line", "title", "minutes", "systems", "rank"),
    [
        ("New front pads; 1:30; Brakes", "New front pads", 90, ("brakes",), ""),
        ("Clean the loom 45 min", "Clean the loom", 45, ("electrics",), ""),
        ("[ ] Clean the shelf (2 hours)", "Clean the shelf", 120, (), ""),
        ("- [ ] Strip the car 1h30m", "Strip the car", 90, (), ""),
        ("Sort the bolts (1 h 30) for good", "Sort the bolts for good", 90, (), ""),
        ("Sort the bolts, about 2 h", "Sort the bolts", 120, (), ""),
        ("Sort the bolts ~2h", "Sort the bolts", 120, (), ""),
        ("+ Sort the bolts 30m", "Sort the bolts", 30, (), ""),
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


@pytest.mark.parametrize(
    ("line", "title", "minutes", "between"),
    [
        ("ball joint R/H 2-3 h", "ball joint R/H", 150, (120, 180)),
        ("ball joint 2 – 3 hours", "ball joint", 150, (120, 180)),
        ("ball joint (30 to 45 min)", "ball joint", 37, (30, 45)),
        ("ball joint; 1h-2h; steering", "ball joint", 90, (60, 120)),
        ("ball joint 1-1:30", "ball joint", 75, (60, 90)),
        ("ball joint 30 min - 1 h", "ball joint", 45, (30, 60)),
        ("ball joint 3-2 h", "ball joint", 120, None),
        ("sump ½ h", "sump", 30, None),
        ("sump 1½h", "sump", 90, None),
        ("sump 1 1/2 h", "sump", 90, None),
        ("sump (3/4 h)", "sump", 45, None),
        ("Fit the 1/2 in bolt", "Fit the 1/2 in bolt", GUESS, None),
    ],
)
def test_a_length_may_be_from_one_to_another_or_a_fraction(line, title, minutes, between):
    [job] = read(line)
    assert (job.title, job.minutes, job.between) == (title, minutes, between)


@pytest.mark.parametrize(
    ("line", "who"),
    [
        ("grease it 1h (Jette)", "Jette"),
        ("grease it (Jette Mahler) 1h", "Jette Mahler"),
        ("bo: grease it 1 h", "bo"),
        ("(BO) grease it 1h", "BO"),
    ],
)
def test_somebody_of_the_garage_before_a_colon_or_in_brackets_is_a_name(line, who):
    [job] = read_list(line, MOST_MINUTES, people=["Jette Mahler", "Bo"]).jobs
    assert (job.title, job.minutes, job.who) == ("grease it", 60, who)
    [other] = read_list("rear: grease it (left)", MOST_MINUTES, people=["Bo"]).jobs
    assert (other.title, other.who) == ("rear: grease it (left)", "")


@pytest.mark.parametrize(
    ("line", "heads"),
    [
        ("KIESEL - TO DO before Advent!!", True),
        ("Todo", True),
        ("To do", True),
        ("KIESEL", True),
        ("FOR KIESEL 2026", True),
        ("WELD KIESEL BRACKET", False),
        ("TODO: wheel bearing LF noisy!! 2.5h - waiting on part", False),
        ("wash Kiesel", False),
        ("PADS", False),
        ("what to do with it", False),
    ],
)
def test_capitals_with_the_car_or_what_is_to_do_are_a_heading(line, heads):
    pasted = read_list(f"{line}\nPolish", MOST_MINUTES, car="Kiesel")
    assert (len(pasted.headings), len(pasted.jobs)) == ((1, 1) if heads else (0, 2))


def test_a_cable_opens_no_hydraulics_and_weighing_is_a_reading():
    cable, lever, weigh = read("e-brake cable adjust\nhandbrake lever and caliper\nweigh car when all done")
    assert (cable.systems, cable.said.kinds) == (("brakes",), ())
    assert lever.said.kinds == ("hydraulics_opened",)
    assert weigh.said.measures == ("corner_weights",)


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
    [
        ("Throttle sticks", "safety"),
        ("Throttle sticks; wanted", "wanted"),
        ("Kill switch", "safety"),
        ("Polish", ""),
        ("Tie rod; body; wanted", ""),
        ("Polish; wanted", ""),
        ("Polish the wing; wanted", "wanted"),
        ("Tie rod; wanted", "wanted"),
    ],
)
def test_a_title_ranks_as_what_hurts_where_nobody_ranked_it(line, rank):
    assert [job.rank for job in read(line)] == [rank]


def test_what_is_ticked_as_done_is_left_out():
    pasted = read_list(
        "[x] Washed the car\n- [X] Old; blue sky\n~~Drop it~~\n☑ Over\n[] Left\nGone ✓\nSold (done)\nThe job is done\n",
        MOST_MINUTES,
    )
    assert [job.title for job in pasted.jobs] == ["Left", "The job is done"]
    assert pasted.done == ("Washed the car", "Old", "Drop it", "Over", "Gone", "Sold")


def test_a_line_is_struck_out_whole_or_is_still_to_do():
    struck = read_list("- ~~Wash it~~\n~~Wax it\n~~Sell it~~; 2 h; body\n~~Bin it~~ ✓\n", MOST_MINUTES)
    assert (struck.jobs, struck.done) == ((), ("Wash it", "Wax it", "Sell it", "Bin it"))
    partly = read_list("~~ bleed ~~ brakes\nFront ~~and rear~~\n- ~~Old~~ new pads ~~left~~\n", MOST_MINUTES)
    assert (len(partly.jobs), partly.done) == (3, ())


def test_a_heading_is_no_job_and_says_what_the_lines_below_it_touch():
    pasted = read_list("Brakes:\n- all new\n- polish the bonnet\nTo do:\nsort it\n:\n", MOST_MINUTES)
    assert pasted.headings == ("Brakes", "To do")
    assert [(job.title, job.systems, job.guessed_systems) for job in pasted.jobs] == [
        *(("all new", ("brakes",), True), ("polish the bonnet", ("body",), True)),
        *(("sort it", (), True), (":", (), True)),
    ]
    assert pasted.jobs[0].said.kinds == ("hydraulics_opened", "friction_parts")


@pytest.mark.parametrize(
    ("line", "title", "minutes", "note", "cures"),
    [
        ("new seat 1.5h @Tom", "new seat", 90, "@Tom", 0),
        ("@tom-2 new seat 1.5h", "new seat", 90, "@tom-2", 0),
        ("respray bonnet 3h, cure 24h", "respray bonnet", 180, "cure 24h", 24 * 60),
        ("respray bonnet (3h), curing for 1 h 30 @Tom", "respray bonnet", 180, "@Tom, curing for 1 h 30", 90),
        ("glue the lip, 12 h to dry", "glue the lip", GUESS, "12 h to dry", 12 * 60),
        ("write to tom@example.org", "write to tom@example.org", GUESS, "", 0),
        ("dry the car", "dry the car", GUESS, "", 0),
        ("torque wheels @110Nm 1h", "torque wheels @110Nm", 60, "", 0),
        ("flat the wing with wet and dry 2h", "flat the wing with wet and dry", 120, "", 0),
    ],
)
def test_who_and_what_cures_are_no_part_of_the_title_or_the_work(line, title, minutes, note, cures):
    [job] = read(line)
    assert (job.title, job.minutes, job.note, job.cures) == (title, minutes, note, cures)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "fix rear light\nweld bracket (2h) after rear light",
            [("fix rear light", ""), ("weld bracket", "fix rear light")],
        ),
        (
            "weld it 2h after The Rear-Lights\nthe rear lights",
            [("weld it", "the rear lights"), ("the rear lights", "")],
        ),
        ("look after the dog", [("look after the dog", "")]),
        (
            "left light\nright light\nweld after light",
            [("left light", ""), ("right light", ""), ("weld after light", "")],
        ),
        ("a after b\nb after c\nc after a", [("a", "b"), ("b", "c after a"), ("c after a", "")]),
        ("weld after weld", [("weld after weld", "")]),
        ("[x] rear light\nweld after rear light", [("weld after rear light", "")]),
        ("fit a after weld b\nweld b after lunch", [("fit a", "weld b after lunch"), ("weld b after lunch", "")]),
        (
            "look after 1 lap\nlook after 9 laps\nlook",
            [("look after 1 lap", ""), ("look after 9 laps", ""), ("look", "")],
        ),
    ],
)
def test_a_line_waits_for_the_one_that_it_names_and_keeps_the_words_where_none_is_called_so(text, told):
    assert [(job.title, job.after) for job in read(text)] == told
    assert {job.minutes for job in read(text)} <= {GUESS, 120}


def test_words_that_stay_in_the_title_say_what_it_touches():
    [job] = read("smoke after braking")
    assert (job.title, job.systems) == ("smoke after braking", ("brakes",))


def test_a_cure_has_a_longest():
    with pytest.raises(ValueError, match="Line 1: nothing cures longer"):
        read("respray 1h, cure 99999h")


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
