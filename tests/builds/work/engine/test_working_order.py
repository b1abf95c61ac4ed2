"""Working order follows the links and then urgency; what is left out keeps the others in order."""

from builds.work.engine.working_order import Wait, reached_from, without, working_order


def test_links_come_before_urgency():
    keys = {"align": (0,), "weld": (2,), "paint": (1,)}
    assert working_order(keys, [("weld", "align")]) == ["paint", "weld", "align"]


def test_equal_jobs_stay_as_given_and_unknown_links_are_passed_over():
    keys = {"b": (0,), "a": (0,)}
    assert working_order(keys, [("gone", "a"), ("b", "gone")]) == ["b", "a"]


def test_a_circle_comes_last_and_loses_nobody():
    keys = {"a": (1,), "b": (0,), "free": (9,)}
    assert working_order(keys, [("a", "b"), ("b", "a")]) == ["free", "b", "a"]


def test_a_job_left_out_passes_its_order_on_with_the_wait_of_what_was_done():
    chain = [
        Wait("prime", "topcoat", 960, "the primer cures"),
        Wait("topcoat", "refit", 720, "the topcoat cures"),
    ]
    assert without(chain, {"topcoat"}) == [Wait("prime", "refit", 960, "the primer cures")]


def test_several_left_out_in_a_row_and_the_longest_wait_of_two_ways():
    joints = [
        Wait("weld", "look", 90, "cools"),
        Wait("look", "clean"),
        Wait("clean", "prime"),
        Wait("weld", "prime", 10),
    ]
    assert without(joints, {"look", "clean"}) == [Wait("weld", "prime", 90, "cools")]


def test_nothing_left_out_changes_nothing():
    joints = [Wait("a", "b"), Wait("b", "c", 5)]
    assert without(joints, set()) == joints


def test_ends_left_out_leave_no_link():
    assert without([Wait("a", "b"), Wait("b", "c")], {"a", "c"}) == []


def test_a_coat_that_is_not_coated_again_hardens_until_it_can_be_handled():
    chain = [
        Wait("prime", "topcoat", 960, "it cures", "epoxy-primer", "recoat_from"),
        Wait("topcoat", "refit", 720, "it cures", "topcoat-2k", "handle"),
    ]
    assert without(chain, {"topcoat"}) == [Wait("prime", "refit", 960, "it cures", "epoxy-primer", "handle")]
    assert without(chain, {"nothing"}) == chain


def test_a_cure_outlasts_a_plain_wait_on_another_way():
    joints = [
        Wait("prime", "a", 60, "", "epoxy-primer", "handle"),
        Wait("prime", "b", 5000),
        Wait("a", "refit"),
        Wait("b", "refit"),
    ]
    assert [row.stage for row in without(joints, {"a", "b"})] == ["handle"]


def test_what_follows_is_found_along_every_way_and_each_once() -> None:
    links = [("strip", "weld"), ("weld", "paint"), ("strip", "clean"), ("clean", "paint"), ("order", "fit")]
    assert sorted(reached_from("strip", links)) == ["clean", "paint", "weld"]
    assert reached_from("paint", links) == []
    assert reached_from("nobody", links) == []


def test_a_circle_leads_back_to_where_it_was_begun() -> None:
    assert sorted(reached_from("a", [("a", "b"), ("b", "a")])) == ["a", "b"]
