"""Torque figures that somebody wrote into a note, found so that a card can repeat them."""

import re

# N·m as the SI brochure writes it and as keyboards do; the pound-force units of the trade.
_UNIT = r"(?:N\s?[·.*⋅\- ]?\s?m|lbf?\s?[·.\-]?\s?(?:ft|in)|(?:ft|in)\s?[·.\-]?\s?lbf?)"
_FIGURE = re.compile(rf"(?<![\w.,])\d[\d.,]*(?:\s?(?:-|–|to)\s?\d[\d.,]*)?\s?{_UNIT}(?!\w)", re.I)
_SENTENCE = re.compile(r"(?<=[.;!?])\s+|\n+")
MOST = 12


def torque_lines(note: str) -> tuple[str, ...]:
    """The sentences of a note that hold a torque figure with its unit, as written, `MOST` at most.

    `Hub nut 140 N·m, then 60°` is found; a number without a unit of torque is not.
    """
    sentences = (sentence.strip(" \t-–•*") for sentence in _SENTENCE.split(note))
    return tuple(sentence for sentence in sentences if _FIGURE.search(sentence))[:MOST]
