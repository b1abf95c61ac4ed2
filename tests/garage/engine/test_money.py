"""Money: whole minor units in and out, one sentence for what is no amount."""

import pytest

from garage.engine.money import MoneyError, money_words, parse_money


@pytest.mark.parametrize(
    ("typed", "minor"),
    [("12", 1200), ("12.5", 1250), ("12,50", 1250), (" 0.07 ", 7), ("999999999.99", 99999999999)],
)
def test_an_amount_is_whole_minor_units(typed, minor):
    assert parse_money(typed) == minor


@pytest.mark.parametrize("typed", ["", "-1", "1.234", "1e3", "12 EUR", "١٢", ".5", "1" * 30])
def test_what_is_no_amount_says_how_to_write_one(typed):
    with pytest.raises(MoneyError, match=r"such as 12 or 12\.50"):
        parse_money(typed)


@pytest.mark.parametrize(
    ("minor", "currency", "words"),
    [(1250, "EUR", "12.50 EUR"), (-5, "EUR", "-0.05 EUR"), (1200, "JPY", "12 JPY")],
)
def test_an_amount_in_words(minor, currency, words):
    assert money_words(minor, currency) == words
