"""The kinds of gear that have a date, or may have one."""

from dataclasses import dataclass

from garage.engine.vocabulary import by_slug


@dataclass(frozen=True, slots=True)
class GearKind:
    """A kind of gear; `struck` when a crash puts it out of use until somebody has looked.

    `void` when it is replaced then, not only looked at. `worn` when a person wears it, so that it
    may have been in any car. `endless` when its label sets it no end, so that a date is enough
    where no organiser's rule says more. `usual` gear is offered by one tap.
    """

    slug: str
    label: str
    struck: bool = False
    void: bool = False
    worn: bool = False
    endless: bool = False
    usual: bool = False

    @property
    def after_crash(self) -> str:
        """How a piece that was struck stands, in a word or two."""
        return "void" if self.void else "to inspect"


# Struck: belts and helmets are replaced after a severe impact, FIA Appendix J article 253 and
# common practice, both from memory; seat and head restraint are inspected: common practice, no
# source. Tyres: a build week and no general end, 49 CFR 574.5 from memory.
KINDS: dict[str, GearKind] = by_slug(
    [
        GearKind("belts", "Belts", struck=True, void=True, usual=True),
        GearKind("seat", "Seat", struck=True, usual=True),
        GearKind("helmet", "Helmet", struck=True, void=True, worn=True, usual=True),
        GearKind("head_restraint", "Head restraint", struck=True, worn=True),
        GearKind("clothing", "Fire-proof clothing", worn=True, usual=True),
        GearKind("window_net", "Window net", struck=True),
        GearKind("extinguisher", "Extinguisher", usual=True),
        GearKind("fuel_cell", "Fuel cell", struck=True),
        GearKind("tyres", "Tyres", endless=True),
        GearKind("papers", "Papers of the car"),
        GearKind("free", "Something else"),
    ]
)
STRUCK_KINDS = frozenset(slug for slug, kind in KINDS.items() if kind.struck)
USUAL_KINDS = tuple(slug for slug, kind in KINDS.items() if kind.usual)
