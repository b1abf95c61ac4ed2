"""A recipe with jobs left out keeps its order, its waits and its station holds."""

from builds.recipes.engine.mend import leave_out
from builds.recipes.engine.recipe import Recipe, RecipeHold, RecipeJob, RecipeLink


def recipe() -> Recipe:
    def job(key, *after):
        return RecipeJob(key, key.title(), (30, 60, 90), after=after)

    return Recipe(
        "arm",
        "Arm",
        "An arm.",
        (
            job("strip"),
            job("prime", RecipeLink("strip")),
            job("topcoat", RecipeLink("prime", 960, "the primer cures", "epoxy-primer")),
            job("refit", RecipeLink("topcoat", 720, "the topcoat cures")),
            job("align", RecipeLink("refit")),
        ),
        (RecipeHold("bay", "strip", "refit"),),
    )


def test_nothing_left_out_is_the_same_recipe():
    assert leave_out(recipe(), ()) == recipe()


def test_the_wait_of_what_is_done_is_kept():
    left = leave_out(recipe(), {"topcoat"})
    assert [job.key for job in left.jobs] == ["strip", "prime", "refit", "align"]
    assert left.jobs[2].after == (RecipeLink("prime", 960, "the primer cures", "epoxy-primer"),)


def test_a_station_hold_shrinks_to_the_jobs_that_are_left():
    left = leave_out(recipe(), {"strip", "refit"})
    assert left.station_holds == (RecipeHold("bay", "prime", "topcoat"),)


def test_a_station_hold_without_jobs_goes():
    assert leave_out(recipe(), {"strip", "prime", "topcoat", "refit"}).station_holds == ()
