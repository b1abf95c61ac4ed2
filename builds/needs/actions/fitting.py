"""What may go on a car: by its condition, and by whether it fits what the job wants."""

from builds.needs.facts.crashed import crashed_with
from builds.needs.facts.fits import answer_of, is_safety, worst_answer
from builds.work.models.job import Job
from builds.work.models.need import Need
from garage.actions.refused import Refused
from garage.engine.reasons import says_why
from garage.models import Vehicle
from parts.engine.fit import DOES_NOT, FITS, FitVerdict
from parts.models import Part

LONGEST = 200


def refuse_misfit(part: Part, job: Job) -> None:
    """What does not fit is not even brought to a job that lives hang on."""
    worst = worst_answer(part, job, job.vehicle)
    if worst:
        _refuse(part, worst.job, worst.verdict, "job")


def refuse_naming(need: Need, part: Part) -> None:
    """As `refuse_misfit`, before the part is named for the need."""
    answer = answer_of(need, part)
    if answer:
        _refuse(part, need.job, answer, "part")


def _refuse(part: Part, job: Job, answer: FitVerdict, field: str) -> None:
    if answer.state == DOES_NOT and is_safety(job, part):
        said = f"{part} does not fit, and lives hang on it: it is not for “{job}”."
        raise Refused(f"{said} {answer.because}", field)


def reasons(
    part: Part,
    job: Job | None,
    car: Vehicle | None,
    *,
    why: str,
    unknown_because: str,
    fit_because: str,
) -> str:
    """The note of a move onto a car, with every reason that it asks for. Raises Refused.

    Scrap and what is to be repaired never goes on; unknown history, and a crash, want a written reason. What
    does not fit what the job wants never goes on where lives hang on it; elsewhere, and where it
    is not known to fit, it wants a written reason.
    """
    if part.condition == Part.Condition.SCRAP:
        raise Refused(f"{part} is scrap: it does not go on a car.")
    if part.condition == Part.Condition.REPAIR:
        raise Refused(f"{part} is to be repaired first.")
    if part.condition == Part.Condition.UNKNOWN and not says_why(unknown_because):
        raise Refused(
            f"Nobody knows the history of {part}: write down why it may be fitted.",
            "unknown_because",
        )
    if not says_why(unknown_because) and (crash := crashed_with(part)):
        raise Refused(
            f"{part} was on {crash.car} in “{crash.title}”: have it inspected, and write down who found it good.",
            "unknown_because",
        )
    worst = worst_answer(part, job, car)
    if worst:
        _refuse(part, worst.job, worst.verdict, "job")
        if worst.verdict.state != FITS and not says_why(fit_because):
            said = "does not fit" if worst.verdict.state == DOES_NOT else "is not known to fit"
            raise Refused(
                f"{part} {said} “{worst.job}”: write down why it may be fitted. {worst.verdict.because}",
                "fit_because",
            )
    given = "; ".join(words for words in (why, unknown_because.strip(), fit_because.strip()) if words)
    if len(given) > LONGEST:
        raise Refused(f"Note and reasons come to {len(given)} characters: {LONGEST} is the most.", "why")
    return given
