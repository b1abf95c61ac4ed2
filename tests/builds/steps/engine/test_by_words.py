"""What a job's own words say beside what somebody ticked."""

import pytest

from builds.steps.engine.by_words import (
    beside,
    found_said,
    is_called,
    is_renamed,
    job_said,
    loses,
    rank_said,
    reworded,
    sentences,
    skill_asked,
    without,
)


def test_what_somebody_ticked_stands_and_only_the_rest_is_guessed():
    said = job_said("Tie rod end")
    assert (said.systems, said.touches, "steering_arm" in said.likely) == (("steering",), ("steering",), True)
    said = job_said("Tie rod end", ["body"])
    assert (said.systems, said.touches, "steering_arm" in said.likely) == (("body",), (), True)
    said = job_said("Tie rod end", [], ["paint"])
    assert (said.systems, said.kinds, said.likely, said.measures) == (("steering",), ("paint",), (), ())


def test_a_line_adds_to_what_stands_and_takes_nothing_from_it():
    said = beside("Tie rod end", ["cooling"], ["coolant"])
    assert (said.systems, said.kinds[0], said.touches) == (("cooling", "steering"), "coolant", ("steering",))
    assert said.kinds == ("coolant", *said.likely)


def test_other_words_add_what_the_old_ones_did_not_say():
    said = reworded("Polish", "Bleed the brakes", ["body"], [])
    assert (said.systems, said.kinds, said.measures) == (("body", "brakes"), ("hydraulics_opened",), ("brake_bleed",))
    same = reworded("Bleed the brakes", "Bleed the brakes well", [], [])
    assert (same.systems, same.kinds, same.measures) == ((), (), ())


def test_likely_kinds_go_with_the_systems_that_they_are_on():
    kinds = ("hydraulics_opened", "paint", "joint_opened")
    assert without(kinds, {"brakes"}) == ("paint", "joint_opened")
    assert without(kinds, {"steering"}) == kinds
    assert without(kinds, {"steering", "suspension"}) == ("hydraulics_opened", "paint")


@pytest.mark.parametrize(
    ("kinds", "skill"),
    [
        *(
            (["hot_work"], "weld"),
            (["part_weld"], "weld"),
            (["chassis_weld", "paint"], "weld"),
            (["two_pack"], "paint"),
        ),
        *((["paint"], "paint"), (["engine_work"], ""), ([], "")),
    ],
)
def test_nobody_welds_who_cannot(kinds, skill):
    assert skill_asked(kinds) == skill


@pytest.mark.parametrize(
    ("skill", "titles"),
    [
        ("brakes", ["Bleed brakes", "New front pads", "Swap the master cylinder", "Servo hose"]),
        ("align", ["Set toe", "Corner weights", "Set camber", "Measure ride height"]),
        ("wire", ["Rewire the dash", "Fit a master switch", "Engine loom out"]),
        (
            "fit",
            ["Wheel bearing left", "New tyres", "Torque the wheels", "Harness out", "New battery", "Track rod end"],
        ),
        ("", ["Polish", "Tidy the boot", "Fit the splitter", "Oil change"]),
    ],
)
def test_what_lives_hang_on_is_opened_by_whoever_can_as_the_recipes_ask(skill, titles):
    for title in titles:
        said = job_said(title)
        assert skill_asked(said.kinds, said.measures) == skill, title


def test_a_skill_of_the_garages_own_is_known_by_its_name():
    assert is_called("weld", "Welder (MIG)") and is_called("weld", "TIG") and is_called("paint", "Spraying")
    assert not is_called("weld", "Mitigation") and not is_called("", "Welding") and not is_called("paint", "Welding")


def test_what_is_said_of_it_is_a_sentence_a_piece():
    said = job_said("Weld the exhaust hanger")
    assert sentences(said, (), "Welding") == (
        "By its words it touches exhaust.",
        "Likely done in it: welding, cutting or grinding elsewhere.",
        "It asks for the skill “Welding”.",
    )
    assert sentences(job_said("Polish"), (), "") == ()


def test_what_was_found_is_what_its_line_names_and_whose_a_hose_is_the_job_says():
    assert found_said("Tie rod bent", ["brakes"]).systems == ("steering",)
    assert found_said("Chafed hose", ["brakes", "wheels"]).systems == ("brakes",)
    assert found_said("Chafed hose", ["body"]).systems == ()
    assert found_said("Can see cord", ["brakes"]).systems == ()


@pytest.mark.parametrize(
    ("old", "new", "less"),
    [
        *(("Wheel nuts loose", "Wash the mats", True), ("Wheel nuts loose", "Wheel nuts", True)),
        *(("Throttle sticks", "Polish the rocker cover", True), ("Wheel nuts", "Wheel nuts, front left", False)),
        *(("Polish the mirror", "Bleed the brakes", True), ("Grumble", "Wheel nuts loose", False)),
    ],
)
def test_which_words_say_less_than_the_old_ones(old, new, less):
    assert loses(old, new) is less


@pytest.mark.parametrize(
    ("title", "systems", "rank"),
    [
        *(("clean out the boot", ("body",), "wanted"), ("Polish the bonnet", ("body",), "wanted")),
        *(("Clean the carb", ("fuel",), ""), ("Wash the car, door hinge cracked", ("body",), "")),
        *(("Throttle sticks", ("engine",), "safety"), ("sort it", (), "")),
    ],
)
def test_cleaning_is_nice_to_have(title, systems, rank):
    said = job_said(title)
    assert (said.systems, rank_said(said, title)) == (systems, rank)


def test_a_plug_in_a_tyre_is_no_spark_plug():
    assert job_said("LR tyre has a nail, plug or new").systems == ("wheels",)
    assert job_said("new plugs").systems == ("engine",)


@pytest.mark.parametrize(
    ("asked", "titles"),
    [
        (True, "Prop off and on;prop UJ;new doughnuts on the prop;fit the wide arches;undertray off and on;back box"),
        (
            True,
            "de-cat and back box;exhaust off;door cards out;gearbox out for clutch;dash out for loom;roll the arches",
        ),
        (False, "Polish the bonnet;wash the car;check the exhaust;measure toe;order an exhaust;charge it;sort it"),
    ],
)
def test_where_a_system_is_read_and_no_kind_its_finish_asks(asked, titles):
    assert [title for title in titles.split(";") if job_said(title).asked is not asked] == []


@pytest.mark.parametrize(
    ("old", "new", "renamed"),
    [
        *(("Read the car", "read THE car", False), ("Read the car", "Read the car, front left 2", False)),
        *(("Read the car", "Read car", False), ("Front hub", "Rear hub", True), ("Read the car", "Read it", True)),
        *(
            ("Read the car", "Read the car and swap the rods", True),
            ("Check the wheels", "Check the wheels, off", True),
        ),
    ],
)
def test_a_side_or_a_number_makes_no_other_work_of_it(old, new, renamed):
    assert is_renamed(old, new) is renamed
