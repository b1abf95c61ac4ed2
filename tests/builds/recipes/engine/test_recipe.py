"""A recipe in, frozen data out; what would not work is refused with one sentence."""

import copy
import json
from typing import Any

import pytest

from builds.recipes.engine.parse import from_dict, from_toml, load_shipped
from builds.recipes.engine.recipe import (
    Recipe,
    RecipeError,
    RecipeHold,
    RecipeJob,
    RecipeLink,
    to_dict,
)

PLAIN: dict[str, Any] = {
    "key": "arm",
    "title": "Mend the arm",
    "summary": "Off, primed, on again.",
    "station_holds": [{"station": "bay", "from": "off", "until": "on"}],
    "jobs": [
        {"key": "off", "title": "Take it off", "work": [30, 45, 90], "kinds": ["joint_opened"]},
        {
            "key": "prime",
            "title": "Prime it",
            "work": [15, 15, 30],
            "systems": ["steering"],
            "skill": "paint",
            "stations": {"paint": 1},
            "after": ["off"],
            "parts": ["primer"],
            "note": "Thin coats.",
        },
        {
            "key": "on",
            "title": "Put it on",
            "work": [60, 90, 120],
            "rank": "needed",
            "hands": 2,
            "splits": True,
            "after": [{"job": "prime", "wait_minutes": 960, "why": "it cures", "cure": "epoxy-primer"}],
            "hold_points": ["Torqued and striped"],
            "measures": ["joint_torque"],
            "tools": ["torque wrench"],
        },
    ],
}


def changed(path: str, value: Any) -> dict[str, Any]:
    """The plain recipe with the entry at a dotted path set to something else."""
    table = copy.deepcopy(PLAIN)
    *way, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    spot: Any = table
    for step in way:
        spot = spot[step]
    spot[last] = value
    return table


def test_every_field_arrives() -> None:
    assert from_dict(PLAIN) == Recipe(
        key="arm",
        title="Mend the arm",
        summary="Off, primed, on again.",
        station_holds=(RecipeHold("bay", "off", "on"),),
        jobs=(
            RecipeJob("off", "Take it off", (30, 45, 90), kinds=("joint_opened",)),
            RecipeJob(
                "prime",
                "Prime it",
                (15, 15, 30),
                systems=("steering",),
                skill="paint",
                stations={"paint": 1},
                after=(RecipeLink("off"),),
                parts=("primer",),
                note="Thin coats.",
            ),
            RecipeJob(
                "on",
                "Put it on",
                (60, 90, 120),
                rank="needed",
                hands=2,
                splits=True,
                after=(RecipeLink("prime", 960, "it cures", "epoxy-primer"),),
                hold_points=("Torqued and striped",),
                measures=("joint_torque",),
                tools=("torque wrench",),
            ),
        ),
    )


def test_a_recipe_says_what_it_voids_measures_and_leaves_void() -> None:
    recipe = from_dict(PLAIN)
    assert recipe.voids == ("toe_rear", "toe_front", "joint_torque")
    assert recipe.measures == ("joint_torque",)
    assert recipe.leaves_void == ("toe_rear", "toe_front")


def test_what_was_read_before_the_work_is_not_taken_again() -> None:
    recipe = from_dict(changed("jobs.2.before", True))
    assert recipe.jobs[2].before
    assert recipe.measures == ()
    assert recipe.leaves_void == ("toe_rear", "toe_front", "joint_torque")


def test_a_recipe_comes_back_from_json_as_it_went() -> None:
    for recipe in (from_dict(PLAIN), *load_shipped()):
        assert from_dict(json.loads(json.dumps(to_dict(recipe)))) == recipe


def test_an_edited_copy_keeps_the_edit() -> None:
    table = to_dict(from_dict(PLAIN))
    table["jobs"][0]["work"] = [60, 60, 60]
    table["jobs"].append({"key": "tag", "title": "Tag it", "work": [5, 5, 5], "after": ["on"]})
    edited = from_dict(table)
    assert edited.jobs[0].work == (60, 60, 60)
    assert edited.jobs[-1].after == (RecipeLink("on"),)


def test_a_station_or_skill_of_the_garages_own_is_taken() -> None:
    recipe = from_dict(changed("jobs.1.stations", {"blast-cabinet": 2}))
    assert recipe.jobs[1].stations == {"blast-cabinet": 2}
    assert from_dict(changed("jobs.1.skill", "upholstery")).jobs[1].skill == "upholstery"


@pytest.mark.parametrize(
    ("path", "value", "sentence"),
    [
        ("key", "Arm rework", "This recipe: key must be lower-case letters, digits, - and _"),
        ("key", "", "This recipe: key is missing."),
        ("title", "  ", "Recipe arm: title is missing."),
        ("title", "x" * 121, "Recipe arm: title is longer than 120 characters."),
        ("jobs", [], "Recipe arm: there is no job in it."),
        ("jobs", "weld", "Recipe arm: jobs must be a list."),
        ("jobs", ["weld"], "Recipe arm, a job: a table was expected."),
        ("jobs", [{}] * 201, "Recipe arm: jobs has more than 200 entries."),
        ("cost", 3, "Recipe arm: 'cost' is not a field here."),
        ("jobs.0.torque", 90, "Recipe arm, job off: 'torque' is not a field here."),
        ("jobs.0.title", 7, "Recipe arm, job off: title must be text."),
        ("jobs.0.work", [30, 45], "job off: work needs three figures: goes well, likely,"),
        ("jobs.0.work", [30, 20, 45], "job off: work must rise from goes well over likely to"),
        ("jobs.0.work", [1.5, 2, 3], "job off: work must be a whole number from 0 to"),
        ("jobs.0.work", [True, 2, 3], "job off: work must be a whole number from 0 to"),
        ("jobs.0.work", [-5, 2, 3], "job off: work must be a whole number from 0 to"),
        ("jobs.0.hands", 21, "job off: hands must be a whole number from 0 to 20."),
        ("jobs.1.hands", 0, "job prime: a job that needs nobody cannot ask for a skill."),
        ("jobs.0.splits", "yes", "job off: splits must be true or false."),
        ("jobs.2.before", "yes", "job on: before must be true or false."),
        ("jobs.0.before", True, "job off: before is for a job that measures."),
        ("jobs.0.systems", ["flux"], "job off: 'flux' is not a known system."),
        ("jobs.0.kinds", ["magic"], "job off: 'magic' is not a known kind of work."),
        ("jobs.2.measures", ["luck"], "job on: 'luck' is not a known reading."),
        ("jobs.0.kinds", ["paint", "paint"], "job off: kinds names something twice."),
        ("jobs.0.kinds", [["paint"]], "job off: kinds must be a list of texts."),
        ("jobs.0.parts", "nuts", "job off: parts must be a list."),
        ("jobs.0.rank", "urgent", "job off: rank must be one of safety, needed, wanted."),
        ("jobs.0.rank", ["safety"], "job off: rank must be one of safety, needed, wanted."),
        ("jobs.1.stations", ["paint"], "job prime: stations must be a table of station and units."),
        ("jobs.1.stations", {"paint": 0}, "job prime, stations: paint must be a whole number"),
        ("jobs.1.stations", {"Paint!": 1}, "job prime: station must be lower-case letters"),
        ("jobs.1.after", ["weld"], "job prime comes after weld, which is not in the recipe."),
        ("jobs.1.after", ["off", "off"], "job prime comes after off twice."),
        ("jobs.1.after", [{"job": "off", "wait_minutes": -1}], "a link: wait_minutes must be a"),
        ("jobs.1.after", [{"wait_minutes": 1}], "job prime, a link: job is missing."),
        (
            "jobs.1.after",
            [{"job": "off", "stage": "full"}],
            "a stage needs the product that cures.",
        ),
        (
            "jobs.1.after",
            [{"job": "off", "stage": "hard"}],
            "stage must be one of touch, recoat_from",
        ),
        ("jobs.1.key", "off", "Recipe arm: two jobs have the key off."),
        ("jobs.0.after", ["off"], "Recipe arm: “Take it off” waits for itself."),
        ("station_holds.0.until", "gone", "a station hold names gone, which is not in the recipe."),
        ("station_holds.0.station", "", "Recipe arm, a station hold: station is missing."),
        ("jobs.0.note", "x" * 2001, "job off: note is longer than 2000 characters."),
    ],
)
def test_what_would_not_work_is_refused_in_one_sentence(path: str, value: Any, sentence: str) -> None:
    with pytest.raises(RecipeError) as refusal:
        from_dict(changed(path, value))
    assert sentence in str(refusal.value)
    assert str(refusal.value).endswith(".")
    assert "\n" not in str(refusal.value)


def test_a_hold_may_last_for_one_job() -> None:
    recipe = from_dict(changed("station_holds.0.from", "on"))
    assert recipe.station_holds == (RecipeHold("bay", "on", "on"),)


def test_a_hold_that_ends_before_it_begins_is_refused() -> None:
    with pytest.raises(RecipeError, match="the station hold until off does not follow from on"):
        from_dict(changed("station_holds.0", {"station": "bay", "from": "on", "until": "off"}))


def test_a_circle_of_jobs_is_spelled_out() -> None:
    with pytest.raises(RecipeError) as refusal:
        from_dict(changed("jobs.0.after", ["on"]))
    said = str(refusal.value)
    assert said == (
        "Recipe arm: “Take it off” waits for “Put it on”, which waits for “Prime it”, which waits for “Take it off”."
    )


def test_a_safety_job_is_ranked_lower_only_with_a_note() -> None:
    table = changed("jobs.1.rank", "wanted")
    assert from_dict(table).jobs[1].rank == "wanted"
    table["jobs"][1]["note"] = ""
    with pytest.raises(RecipeError, match=r"job prime: this job touches steering: write down why"):
        from_dict(table)


def test_text_that_is_not_toml_is_refused() -> None:
    with pytest.raises(RecipeError, match=r"^This recipe is not valid TOML: .*\.$"):
        from_toml("key = ")


def test_something_that_is_no_table_is_refused() -> None:
    with pytest.raises(RecipeError, match=r"^This recipe: a table was expected\.$"):
        from_dict(["weld"])  # type: ignore[arg-type]  # what a broken JSON file may hold
