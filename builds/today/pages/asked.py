"""What a list or a sheet of work is asked for, in words and behind an address."""

from builds.today.facts.asked import Asked


def asked_words(asked: Asked) -> str:
    if asked.person:
        return f"{asked.person.name}, tonight"
    return f"“{asked.job}”" if asked.job else str(asked.event or "tonight")


def asked_query(asked: Asked) -> str:
    """What asks for the same again."""
    things = {"job": asked.job, "person": asked.person, "event": asked.event}
    return "".join(f"?{name}={thing.pk}" for name, thing in things.items() if thing)
