"""Counts in words."""

NUMBERS = (
    *("No", "One", "Two", "Three", "Four", "Five", "Six"),
    *("Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"),
)


def count_words(count: int, one: str, many: str) -> str:
    """`Three jobs`, `One job`, `14 jobs`."""
    number = NUMBERS[count] if count < len(NUMBERS) else str(count)
    return f"{number} {one if count == 1 else many}"
