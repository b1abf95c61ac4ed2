"""The rows of the benchmark: each is measured here and nowhere else."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import mean, median
from time import perf_counter

from builds.planner import check, search
from builds.planner.evolve import Evolution
from builds.planner.model import Model
from builds.planner.order import RULES, JobUrgency, listed
from builds.planner.place import Draft, Placer
from builds.planner.plan import Plan, Progress
from builds.planner.problem import Problem
from tests.benchmarks.planner import peers
from tests.benchmarks.planner.fleets import made_fleet
from tests.builds.planner.data import FLEETS, fleet, instances, psplib

Row = tuple[str, ...]
PEER_SECONDS = 60
WORKERS = 2


def first_pass() -> Iterator[Row]:
    """Time from a problem to its first plan, checked; the best of three."""
    yield "jobs", "first plan, ms", "placing alone, ms", "ms a job"
    made = [fleet(path) for path in FLEETS if path.stem in ("fleet_15", "fleet_16", "fleet_23")]
    made += [made_fleet(size) for size in (125, 250, 500, 1000, 2000)]
    for problem in made:
        whole = min(_seconds(lambda p=problem: search.plan(p)) for _ in range(3))
        model = Model(problem)
        draft = Draft.of(model, Evolution(model, 1).best.draft.order)
        alone = min(_seconds(lambda m=model, d=draft: Placer(m).place(d)) for _ in range(3))
        jobs = len(problem.jobs)
        yield str(jobs), f"{whole * 1e3:.1f}", f"{alone * 1e3:.1f}", f"{whole * 1e3 / jobs:.3f}"


def published(name: str, seconds: float, every: int = 1, peer: bool = True) -> Row:
    """Gaps to the best known makespans of a set, in per cent, for the planner and the library."""
    gaps, theirs = [], []
    for path, best in instances(name)[::every]:
        problem = psplib(path)
        gaps.append(_gap(_searched(problem, seconds, best), problem, best))
        if peer and not peers.missing():
            answer, _ = peers.library_plan(problem, seconds, WORKERS)
            theirs.append(_gap(answer, problem, best) if answer else float("inf"))
    return (
        f"{name} ({len(gaps)}), {seconds:g} s",
        f"{mean(gaps):.2f} / {median(gaps):.2f}",
        f"{mean(theirs):.2f} / {median(theirs):.2f}" if theirs else "-",
    )


def _searched(problem: Problem, seconds: float, best: int) -> Plan:
    """The plan after so many seconds, or as soon as it is as good as the best known."""
    told: list[Progress] = []
    return search.plan(
        problem, seconds=seconds, progress=told.append, stop=lambda: bool(told) and told[-1].best_score <= (best,)
    )


def late_only(rows: Sequence[Row]) -> Iterator[Row]:
    """The table of the fleets as README has it: jobs, and of each score what is late."""
    yield "jobs", "planner, 1 s", "best of the rules", f"library, {PEER_SECONDS} s"
    for path, (_, _, *answers, _) in zip(FLEETS, rows[1:], strict=True):
        words = [answer if "plan" in answer else _late(answer) for answer in answers]
        yield str(len(fleet(path).jobs)), *words


def fleets() -> Iterator[Row]:
    """The scores of each fleet: one second of search, the best single rule, the library."""
    yield "fleet", "first plan", "1 s", "best of the rules", f"library, {PEER_SECONDS} s", "kept"
    for path in FLEETS:
        problem = fleet(path)
        ours = search.plan(problem, seconds=1).score
        rule = min(rule_scores(problem))
        row = [path.stem, _words(search.plan(problem).score), _words(ours), _words(rule)]
        worst = rule
        if peers.missing():
            row.append("-")
        else:
            answer, proved = peers.library_plan(problem, PEER_SECONDS, WORKERS)
            theirs = check.score(problem, answer) if answer else None
            sound = answer is not None and not check.faults(problem, answer)
            row.append(_words(theirs) + " *" * proved + " †" * (not sound) if theirs else "no plan")
            worst = min(rule, theirs) if theirs and sound else rule
        yield (*row, "better" if ours < worst else "same" if ours == worst else "WORSE")


def _late(answer: str) -> str:
    """What is late of a score in words, and whether its plan has a fault."""
    words = answer.split()
    return " ".join([*words[:4], *(word for word in words if word == "†")])


def small_fleets() -> Row:
    """For how many fleets of up to twelve jobs the search is no worse than the plan proved least in its sum of ends."""
    reached = proofs = 0
    made = [fleet(FLEETS[0])] + [made_fleet(9 + k % 4, k, 0.4) for k in range(12)]
    for problem in made:
        answer, proved = peers.library_plan(problem, 20, WORKERS, ends=True)
        if answer and proved and not any(check.score(problem, answer)[:4]):
            proofs += 1
            ours = search.plan(problem, seconds=1).score
            reached += ours <= check.score(problem, answer)
    return (f"{reached} of {proofs}",)


def rule_scores(problem: Problem) -> list[tuple[float, ...]]:
    """The score of one pass by each priority rule."""
    model = Model(problem)
    urgency, placer = JobUrgency(model), Placer(model)
    scores = []
    for rule in RULES:
        order = listed(model, [rule(urgency, j) for j in range(model.size)])
        places = placer.place(Draft.of(model, order))
        scores.append(search.as_plan(model, places, 0, 1, str).score)
    return scores


def _gap(answer: Plan, problem: Problem, best: int) -> float:
    return 100 * (check.score(problem, answer)[0] - best) / best


def _words(score: tuple[float, ...]) -> str:
    return " ".join(f"{part:g}" if part < 1e6 else f"{part:.0f}" for part in score)


def _seconds(what) -> float:
    begun = perf_counter()
    what()
    return perf_counter() - begun
