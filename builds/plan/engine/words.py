"""Counts in words, and that a plan is an older one."""

NUMBERS = (
    *("No", "One", "Two", "Three", "Four", "Five", "Six"),
    *("Seven", "Eight", "Nine", "Ten", "Eleven", "Twelve"),
)


def count_words(count: int, one: str, many: str) -> str:
    """`Three jobs`, `One job`, `14 jobs`."""
    number = NUMBERS[count] if count < len(NUMBERS) else str(count)
    return f"{number} {one if count == 1 else many}"


def older_plan_words(why: str) -> str:
    """What is said beside a plan that is not one of the garage as it is, and why; nothing where it is."""
    return f"This cannot be planned as it is, and the plan stays as it was. {why}" if why else ""
