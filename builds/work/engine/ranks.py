"""How much a job matters: safety, needed, wanted, and what its systems say about that."""

from collections.abc import Collection, Iterable

from garage.engine.reasons import says_why
from garage.engine.systems import SAFETY_SYSTEMS, SYSTEMS
from garage.engine.vocabulary import known

RANKS: dict[str, str] = {
    "safety": "Safety: someone gets hurt",
    "needed": "Needed: no entry or no running without it",
    "wanted": "Wanted",
}
RANK_ORDER: dict[str, int] = {rank: number for number, rank in enumerate(RANKS)}


def rank_for(systems: Iterable[str]) -> str | None:
    """The rank that a job's systems (slugs) give it by themselves: "safety" or None.

    Raises ValueError for an unknown system. Source: trade rule, common practice, no source.
    """
    return "safety" if known(systems, SYSTEMS, "system") & SAFETY_SYSTEMS else None


NOT_WANTED = "Nobody has said what it touches: say that first, or let it rank needed."


def refuse_wanted(rank: str, *said: Collection[str]) -> str | None:
    """Why a job of this rank may not be put off: none of what is `said` of it (systems, kinds, readings) says anything.

    The car may run without what is only wanted; of work that may touch anything nobody knows that. Trade rule,
    common practice, no source.
    """
    return NOT_WANTED if rank == "wanted" and not any(said) else None


def refuse_rank(rank: str, systems: Iterable[str], reason: str = "") -> str | None:
    """Why a job on these systems (slugs) may not have this rank, in one sentence, or None.

    Raising is always allowed; going below what the systems give asks for a written reason.
    """
    if rank not in RANKS:
        return f"{rank!r} is not a rank: choose safety, needed or wanted."
    systems = known(systems, SYSTEMS, "system")
    own = rank_for(systems)
    if own is None or RANK_ORDER[rank] <= RANK_ORDER[own] or says_why(reason):
        return None
    labels = [system.label for slug, system in SYSTEMS.items() if slug in systems and system.safety]
    touched = ", ".join(labels).lower()
    return f"This job touches {touched}: write down why it may rank below safety."
