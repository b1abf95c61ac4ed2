"""Words cut to the room there is on the plan strip."""

LETTER, NARROW = 7.4, 6.7  # px of a letter of 14 px type, on the wide side; of the lettering


def cut(words: str, room: float, letter: float = LETTER) -> str:
    """As much of the words as `room` px hold; nothing when that would be no word."""
    letters = int(room / letter)
    if len(words) <= letters:
        return words
    return f"{words[: letters - 1].rstrip()}…" if letters > 3 else ""


def two_lines(words: str, room: float) -> tuple[str, ...]:
    """The words on two lines of the lettering, cut where they do not fit."""
    letters = int(room / NARROW)
    first = ""
    for word in words.split():
        longer = f"{first} {word}".strip()
        if len(longer) > letters:
            break
        first = longer
    if not first:
        return (cut(words, room, NARROW),)
    rest = words[len(first) :].strip()
    return (first, cut(rest, room, NARROW)) if rest else (first,)
