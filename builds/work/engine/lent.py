"""Skills that are lent for one job, as the planner is told of them."""

LENT = " or is "


def lent_skill(skill: str, names: list[str]) -> str:
    """`weld or is Priya`: what a job asks for when people (by name) may do it without the skill.

    Read after "who can"; the skill itself when nobody was lent it.
    """
    return LENT.join([skill, *names])


def plain_skill(asked: str) -> str:
    """The skill behind what a job asks for."""
    return asked.split(LENT, 1)[0]
