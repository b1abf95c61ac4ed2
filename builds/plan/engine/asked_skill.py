"""The skill that a job asks for, as the planner is told of it; it may be lent for one job."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class AskedSkill:
    """`name` of the skill; people in `lent_to` (by name) may do the job without having it."""

    name: str
    lent_to: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """`Welding`, or `Welding or is Priya` where it is lent: the planner's id of what is asked for.

        Whoever counts for the job has that id among his skills. The planner compares it with others
        and reads it out after "who can"; nothing takes it apart again.
        """
        return " or is ".join([self.name, *self.lent_to])
