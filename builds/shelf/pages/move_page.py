"""What the page of a move says before it is made."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from builds.needs.facts.fits import job_fits
from builds.needs.facts.meant import looking_for
from builds.needs.pages.words import fit_words
from builds.shelf.actions import fitted
from builds.shelf.actions.shelf import robs
from builds.shelf.pages.robbing import Robbed, robbed
from builds.shelf.pages.want_page import WantRow, wants_for
from builds.work.models.job import Job
from builds.work.models.need import Need
from builds.work.models.owed import PartUse
from builds.work.models.states import OPEN_STATES, State
from parts.engine.fit import FitVerdict
from parts.engine.ledger import STORES, VERBS
from parts.models import Move, Part, Place


@dataclass(frozen=True)
class FitLine:
    """How the part answers what one job `asked` it to fit."""

    job: Job
    asked: str
    verdict: FitVerdict


@dataclass(frozen=True)
class MoveView:
    """`robbed` has what each car it may come from would then be; `promised` who else waits.

    `fits` is how the part answers what the jobs want it to fit.
    """

    button: str
    robbed: tuple[Robbed, ...]
    promised: tuple[WantRow, ...]
    fits: tuple[FitLine, ...] = ()


def likely_job(part: Part, verb: str) -> Job | None:
    """What it was pulled for if it is fitted now; else the one open job that wants it, or something called so."""
    if verb == "fit":
        pulled = PartUse.objects.standing().filter(move__part=part, move__verb="pull")
        use = pulled.filter(job__state__in=OPEN_STATES).select_related("job").last()
        if use:
            return use.job
    rows = Need.objects.in_garage(part.garage_id).open().filter(part=part).with_ends()
    jobs = {need.job_id: need.job for need in rows or looking_for(part)}
    return next(iter(jobs.values())) if len(jobs) == 1 else None


def fitting_words(move: Move) -> str:
    """What a fitting that no job tells of opened, as work of its own; empty where there is none."""
    written = fitted.written_for(move)
    if written is None:
        return ""
    ends = "somebody else looks at it" if written.state == State.DONE else "say what it touches and what was opened"
    return f"“{written}” is work on {written.vehicle}: {ends}, and what that opened is measured and marked again."


def move_view(part: Part, verb: str, sources: Sequence[Place], job: str, at: datetime) -> MoveView:
    """`job` is the one chosen so far (its pk as text)."""
    chosen = Job.objects.in_garage(part.garage_id).filter(pk=job).first() if job else None
    cars = [place.vehicle for place in sources if robs(part, place, chosen)]
    stored = any(place.kind in STORES for place in sources)
    promised = [want for want in (wants_for(part, at) if stored else ()) if want.line.places and want.job != chosen]
    fits = job_fits(part) if verb in ("pull", "fit") else ()
    return MoveView(
        VERBS[verb].button,
        tuple(robbed(part, cars, at)),
        tuple(promised),
        tuple(FitLine(fit.job, fit_words(fit.need), fit.verdict) for fit in fits),
    )
