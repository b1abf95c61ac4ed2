"""What a job's own words say of it beside what somebody ticked: what it touches, what is likely done, what it takes."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from builds.readings.engine.corners_said import corner_said
from builds.readings.engine.kinds_of_work import KINDS
from builds.readings.engine.kinds_said import hose_said, kinds_said
from builds.readings.engine.kinds_touch import TOUCHED_BY
from builds.readings.engine.readings_said import only_reads, readings_said
from builds.work.engine.half_done import PAINTED
from garage.engine.cleaning_said import SKIN, only_cleans
from garage.engine.names_said import NameTable, plain
from garage.engine.opens_nothing_said import opens_nothing_said
from garage.engine.systems import SYSTEMS
from garage.engine.systems_said import fault_said, hurts_said, systems_said

# The systems that have hoses; a hose found on one of them is its own.
HOSED = frozenset({"brakes", "fuel", "cooling"})
# Whom kinds of work and readings want, by the slug of the skill that the recipes ask for, the rarest first; and what
# such a skill may be called. A battery that is lifted out or in is no wiring. Common practice, no source.
ASKS: tuple[tuple[str, frozenset[str]], ...] = (
    ("weld", frozenset({"hot_work", "part_weld", "chassis_weld"})),
    ("paint", PAINTED),
    ("brakes", frozenset({"hydraulics_opened", "friction_parts", "brake_vacuum", "brake_bleed"})),
    ("align", frozenset({"ride_height", "bump_steer", "corner_weights", "camber", "caster", "toe_rear", "toe_front"})),
    ("fit", frozenset({"mass_unit_moved"})),
    ("wire", frozenset({"wiring"})),
    ("fit", frozenset(TOUCHED_BY) | {"wheel_torque"}),
)
# New metal let into a car is a day's work; all else is an hour until somebody says better.
FIRST_GUESS, WELDING_IN = (30, 60, 120), (120, 300, 600)
SKILL_NAMES = NameTable(
    {
        "weld": "weld*, mig, tig, braz*, fabricat*",
        "paint": "paint*, spray*, lacquer*",
        "brakes": "brak*",
        "align": "align*, geometry, wheel align*, tracking",
        "wire": "wir*, electric*, auto electric*",
        "fit": "fit*, spanner*, mechanic*",
    }
)


@dataclass(frozen=True, slots=True)
class ByWords:
    """What stands of a job (slugs); `touches`, `likely` and `takes` are the part of it that only its words say.

    `hurts` when they name what somebody gets hurt by, whatever its system; `unsaid` when they say what is touched, and
    neither they nor anybody says what is done to it.
    """

    systems: tuple[str, ...]
    kinds: tuple[str, ...]
    measures: tuple[str, ...] = ()
    touches: tuple[str, ...] = ()
    likely: tuple[str, ...] = ()
    hurts: bool = False
    unsaid: bool = False

    @property
    def asked(self) -> bool:
        """Whether its finish asks what was opened: that is only likely, or unsaid."""
        return bool(self.likely) or self.unsaid


def job_said(title: str, systems: Collection[str] = (), kinds: Collection[str] = ()) -> ByWords:
    """Of a job of this title what nobody said: its systems and its kinds of work, each where none was said.

    What is only likely counts for the order of work, the plan and the cautions as if somebody had said it: being
    careful costs an evening. What it spoils is void once hands are on it, and its finish says what it was.
    """
    touches = () if systems else systems_said(title) or (("body",) if only_cleans(title) else ())
    stands = tuple(systems) or touches
    likely = () if kinds else kinds_said(title, stands)
    measures = readings_said(title)
    unsaid = bool(stands) and not (kinds or likely or measures or opens_nothing_said(title))
    return ByWords(stands, tuple(kinds) or likely, measures, touches, likely, hurts_said(title), unsaid)


def beside(title: str, systems: Iterable[str], kinds: Iterable[str]) -> ByWords:
    """Of a job of this title what stands already, and all that its words say beside it."""
    there, done = tuple(dict.fromkeys(systems)), tuple(dict.fromkeys(kinds))
    said = job_said(title)
    touches = tuple(system for system in said.systems if system not in there)
    likely = tuple(kind for kind in said.kinds if kind not in done)
    return ByWords((*there, *touches), (*done, *likely), said.measures, touches, likely, said.hurts)


def told_apart(title: str, said: ByWords) -> tuple[str, ...]:
    """What lines of the same work have in common: their title, or what they measure where they say only that."""
    if only_reads(title):
        return (*said.kinds, *said.measures, *sorted(corner_said(title)))
    return (title.casefold(),)


def found_said(line: str, during: Iterable[str]) -> ByWords:
    """Of what was found in a job of these systems (slugs): what its line names; whose a hose is the job says."""
    said = job_said(line)
    if said.systems or not hose_said(line):
        return said
    return job_said(line, [system for system in during if system in HOSED])


def loses(old: str, new: str) -> bool:
    """Whether a job's new words do not say what the old ones did: what it touches, or that something is wrong."""
    before, after = job_said(old), job_said(new)
    hurts, fault = before.hurts and not after.hurts, fault_said(old) and not fault_said(new)
    return hurts or fault or not {*before.systems} <= {*after.systems} or not {*before.kinds} <= {*after.kinds}


def reworded(old: str, new: str, systems: Collection[str], kinds: Collection[str]) -> ByWords:
    """Of a job that is called otherwise now: what the new words say and the old ones did not."""
    before, after = job_said(old), beside(new, systems, kinds)
    touches = tuple(system for system in after.touches if system not in before.systems)
    likely = tuple(kind for kind in after.likely if kind not in before.kinds)
    measures = tuple(slug for slug in after.measures if slug not in before.measures)
    hurts = after.hurts and not before.hurts
    return ByWords((*systems, *touches), (*kinds, *likely), measures, touches, likely, hurts)


# Said of a piece of work beside its name, they make no other work of it.
_SIDES = """
    left right front rear both side sides nearside offside driver passenger
    ns os nsf nsr osf osr lh rh lf rf lr rr fl fr rl
"""
_WHERE = frozenset(_SIDES.split())


def is_renamed(old: str, new: str) -> bool:
    """Whether a job's new words are others than the old ones with a side or a number beside them: of one that a recipe
    brought nobody knows then what it opens."""
    before, after = plain(old).split(), plain(new).split()
    return [word for word in after if word in before or not (word in _WHERE or word.isdigit())] != before


def without(kinds: Iterable[str], gone: Collection[str]) -> tuple[str, ...]:
    """Kinds of work that are only likely, but for those that open nothing beside systems (slugs) taken off the job."""
    return tuple(kind for kind in kinds if not (opened := TOUCHED_BY.get(kind)) or not {*opened} <= {*gone})


def skill_asked(kinds: Iterable[str], measures: Iterable[str] = ()) -> str:
    """The skill (slug) of whoever does such work and takes such readings, empty where anybody may.

    Nobody welds who cannot, and none but those who can open what lives hang on.
    """
    done = frozenset(kinds).union(measures)
    return next((skill for skill, asks in ASKS if not asks.isdisjoint(done)), "")


def rank_said(said: ByWords, title: str) -> str:
    """The rank (slug) of a job that nobody has ranked, where its words say it; else empty."""
    if said.hurts:
        return "safety"
    return "wanted" if only_cleans(title) and not said.kinds and SKIN.issuperset(said.systems) else ""


def first_guess(kinds: Iterable[str]) -> tuple[int, int, int]:
    """How long what somebody saw takes, of these kinds of work: minutes goes well, likely, fights back. Invented."""
    return WELDING_IN if "chassis_weld" in kinds else FIRST_GUESS


def is_called(skill: str, name: str) -> bool:
    """Whether a garage's own skill of that name is the one meant (slug)."""
    return skill in SKILL_NAMES.said(name)


def sentences(said: ByWords, takes: Iterable[str], skill: str) -> tuple[str, ...]:
    """What was taken from the words alone, a sentence a piece; readings and skill by their names."""
    touches = ", ".join(SYSTEMS[slug].label.lower() for slug in said.touches)
    likely = "; ".join(KINDS[slug].label.lower() for slug in said.likely)
    measured = ", ".join(name.lower() for name in takes)
    return tuple(
        filter(
            None,
            [
                f"By its words it touches {touches}." if touches else "",
                f"Likely done in it: {likely}." if likely else "",
                f"It is taken to measure {measured}." if measured else "",
                f"It asks for the skill “{skill}”." if skill else "",
            ],
        )
    )
