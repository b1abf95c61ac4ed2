"""Money of one currency as whole minor units; no float comes near it."""

import re

AMOUNT = re.compile(r"(\d{1,9})(?:[.,](\d{1,2}))?", re.ASCII)
# ISO 4217: these have no minor unit in use.
WHOLE = frozenset({"JPY", "KRW", "ISK", "CLP", "VND"})


class MoneyError(ValueError):
    """One sentence that says what to write instead."""


def parse_money(text: str) -> int:
    """Minor units (hundredths) from `12`, `12.5` or `12,50`. Raises MoneyError."""
    match = AMOUNT.fullmatch(text.strip()[:20])
    if not match:
        raise MoneyError("Write an amount such as 12 or 12.50.")
    return int(match[1]) * 100 + int((match[2] or "0").ljust(2, "0"))


def money_words(minor: int, currency: str) -> str:
    """`12.50 EUR`; currencies without a minor unit in use show none when it is zero."""
    whole, rest = divmod(abs(minor), 100)
    sign = "-" if minor < 0 else ""
    figure = f"{whole}" if currency in WHOLE and not rest else f"{whole}.{rest:02d}"
    return f"{sign}{figure} {currency}"
