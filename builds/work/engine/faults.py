"""Which open jobs are faults: something that is not as it must be, and not only what is to be done."""

from garage.engine.systems_said import fault_said, sound_said, systems_said


def said_of(title: str, was_called: str) -> str:
    """All that a job ever said: its title, and the one that said more."""
    return f"{title}. {was_called}" if was_called else title


def is_fault(title: str, recipe: str, *, found: bool = False) -> bool:
    """By its own words, or found on something that its words name; a recipe is work, whatever its jobs are called.

    Words that plainly say that nothing is wrong are none.
    """
    seen = found and bool(systems_said(title)) and not sound_said(title)
    return not recipe and (fault_said(title) or seen)
