"""Dates of gear against what standards, clubs and handbooks say; sources in the engine's data."""

from datetime import date

import pytest

from garage.engine.gear import (
    AS_PRINTED,
    DateRule,
    GearItem,
    Printed,
    age_years,
    code_month,
    judge,
    last_valid_day,
    printed_from,
    printed_words,
    week_spans,
)
from garage.engine.gear.standards import STANDARDS

MARCH_2024 = Printed(date(2024, 3, 1), "month")


@pytest.mark.parametrize(
    ("rule", "last"),
    [
        # One label, three clubs: bmwccaclubracing.com, apexspeed.com (twice).
        (DateRule("exact", 2), date(2026, 3, 31)),
        (DateRule("end_of_month", 2), date(2026, 3, 31)),
        (DateRule("end_of_year", 2), date(2026, 12, 31)),
        (DateRule("end_of_year", 5), date(2029, 12, 31)),
    ],
)
def test_one_label_and_three_clubs(rule, last):
    assert last_valid_day(MARCH_2024, "made", rule) == last


def test_a_year_not_valid_after_runs_to_its_last_day():
    # naroescapemotorsports.com: valid to 31 December of the year on the label.
    label = printed_from("2027")
    assert last_valid_day(label, "until", AS_PRINTED) == date(2027, 12, 31)
    # A rule that counts from the making cannot be applied to such a label.
    assert last_valid_day(label, "until", DateRule("exact", 2)) == date(2027, 12, 31)
    # A national body granted 2 years more in some disciplines: clubmanmotorsport.com.
    assert last_valid_day(label, "until", DateRule("printed", 2)) == date(2029, 12, 31)


@pytest.mark.parametrize(
    ("slug", "typed", "last"),
    [
        ("sfi-16", "March 2024", date(2026, 3, 31)),
        ("fia-8853-98", "2027", date(2027, 12, 31)),
        ("fia-8853-2016", "2027", date(2027, 12, 31)),
        ("fia-8855-1999", "06/2021", date(2026, 6, 30)),
        ("fia-8862-2009", "06/2021", date(2031, 6, 30)),
        ("fia-8855-2021", "2031", date(2031, 12, 31)),
        ("snell-sa", "2020", date(2030, 12, 31)),
        ("sfi-38", "2021-05-04", date(2026, 5, 4)),
        ("sfi-27", "2024-05-04", date(2026, 5, 4)),
        ("serviced-24-months", "2024-05-04", date(2026, 5, 4)),
        ("fia-ft3", "2021-05", date(2026, 5, 31)),
    ],
)
def test_the_life_of_each_standard(slug, typed, last):
    standard = STANDARDS[slug]
    printed = printed_from(typed)
    assert last_valid_day(printed, standard.meaning, AS_PRINTED, standard.life) == last
    item = GearItem(standard.kind, slug, printed, standard.meaning)
    assert judge(item, AS_PRINTED, last).state == "soon"
    assert judge(item, AS_PRINTED, date.fromordinal(last.toordinal() + 1)).state == "out"


def test_one_club_takes_a_helmet_of_2015_to_the_end_of_2026():
    # trackguys.com
    assert last_valid_day(printed_from("2015"), "made", DateRule("end_of_year", 11)) == date(2026, 12, 31)


def test_a_tyres_code_is_a_month():
    assert printed_words(printed_from("2319", tyre=True)) == "June 2019 (2319)"
    assert code_month("0301") == date(2001, 1, 1)
    assert code_month("5320") == date(2020, 12, 1)
    # Its Thursday is the last day of May, its Friday is June: ISO 8601 counts a week where its Thursday lies.
    assert (code_month("2218"), code_month("2318")) == (date(2018, 5, 1), date(2018, 6, 1))


def test_a_tyres_week_by_each_way_of_counting():
    # First full week: a maker's handbook on auto.manualsonline.com; ISO 8601.
    _around, iso, full = week_spans("2319")
    assert full == (date(2019, 6, 9), date(2019, 6, 15))
    assert iso == (date(2019, 6, 3), date(2019, 6, 9))
    days = [day for span in week_spans("5320") for day in span]
    assert (min(days), max(days)) == (date(2020, 12, 27), date(2021, 1, 9))


def test_a_tyres_age():
    assert age_years("2319", date(2026, 5, 16)) == pytest.approx(6.94, abs=0.005)


@pytest.mark.parametrize("code", ["0019", "5419", "9999", "", "23 19", "231", "23190", "²319", "x"])
def test_codes_that_are_none(code):
    with pytest.raises(ValueError, match=r"week|digits"):
        code_month(code)


def test_three_digits_are_said_to_be_old():
    with pytest.raises(ValueError, match="before 2000"):
        code_month("239")


def test_belts_and_helmets_are_void_after_a_crash_whatever_their_date():
    # Replace after a severe impact: common practice and FIA Appendix J article 253, from memory.
    for kind, word in (("belts", "void"), ("helmet", "void"), ("seat", "to inspect")):
        item = GearItem(kind, "", printed_from("2099"), "until", struck=True)
        found = judge(item, AS_PRINTED, date(2026, 5, 16))
        assert found.sentence == f"Went through a crash: {word}, whatever its date."
        assert not found.passes


@pytest.mark.parametrize(
    ("made", "state", "last"),
    [
        ("March 2022", "out", date(2024, 12, 31)),  # the rule is the sooner
        ("March 2024", "good", date(2026, 12, 31)),
        ("March 2028", "good", date(2027, 12, 31)),  # the label is the sooner
        ("", "undated", date(2027, 12, 31)),
    ],
)
def test_until_and_the_events_rule_both_count_and_the_sooner_wins(made, state, last):
    """Not valid after 2027 on the label, 2 years to 31 December by the event's rule."""
    item = GearItem("belts", "", printed_from("2027"), "until", made=printed_from(made) if made else None)
    found = judge(item, DateRule("end_of_year", 2), date(2026, 5, 16))
    assert (found.state, found.last_day) == (state, last)
    assert judge(item, AS_PRINTED, date(2026, 5, 16)).last_day == date(2027, 12, 31)


def test_past_its_label_it_is_out_whatever_the_making():
    item = GearItem("belts", "", printed_from("2025"), "until")
    assert judge(item, DateRule("exact", 9), date(2026, 5, 16)).state == "out"


def test_on_the_last_day_of_its_label_the_making_is_still_asked_for():
    item = GearItem("belts", "", printed_from("2027"), "until")
    states = [judge(item, DateRule("exact", 2), date(*day)).state for day in ((2027, 12, 31), (2028, 1, 1))]
    assert states == ["undated", "out"]


def test_where_the_rule_wants_a_making_that_nobody_knows_it_says_so():
    item = GearItem("belts", "", printed_from("2027"), "until")
    assert judge(item, DateRule("exact", 2), date(2026, 5, 16)).sentence == (
        "Not valid after 2027, but the event counts 2 years to the day from the making, "
        "and when it was made is not on record."
    )


def test_tyres_have_no_general_end_and_an_organiser_may_set_one():
    tyre = GearItem("tyres", "tyre-code", printed_from("2319", tyre=True))
    assert judge(tyre, AS_PRINTED, date(2026, 5, 16)).state == "good"
    assert judge(tyre, DateRule("exact", 6), date(2026, 5, 16)).state == "out"
