"""The order of work on one car: links that the trade draws between jobs, whoever wrote them down."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from itertools import combinations, pairwise, product
from math import inf

from builds.readings.engine.car_job import ON_WHEELS, STAGE, CarJob, ChainStep
from builds.readings.engine.corners_said import are_apart
from builds.readings.engine.kinds_of_work import voided_by
from builds.readings.engine.rules_of_order import AFTER_CHAIN, MADE_SAFE, ON_ITS_WHEELS, PROVED_COLD, RULES, Rule, Says
from builds.readings.engine.sorts_of_job import BURNS, ON_STANDS, fits_tyres, looks_over, made_safe, wheels_off
from builds.readings.engine.vocabulary import READINGS, in_measuring_order
from builds.readings.engine.what_leads import Order
from builds.work.engine.apart import HOT

__all__ = ["STAGE", "CarJob", "Order", "Pair", "order_of_work", "untaken"]

Pair = tuple[int, int]

IN_THIS_ORDER = "measured in this order"
READ_FIRST = "read before it is disturbed"
WOULD_VOID = "would void {}"
STRIPPED = "the car stands stripped until then"
PROVED = "proved before the engine runs"
BARED = "whatever burns is out of the way before any sparks"
CLOSED_UP = "no sparks near what was cleared for them"
TYRES = "tyres are fitted while the wheels are off"


def order_of_work(
    jobs: Mapping[int, CarJob],
    links: Collection[Pair] = (),
    strips: Collection[Pair] = (),
    cut: Collection[Pair] = (),
) -> dict[Pair, str]:
    """The links (before, after) that the order of work adds to the `links` there are, each with why.

    `strips` are pairs of jobs from whose first to whose last the car is stripped; a first job that
    is not among `jobs` has begun. A reading that is linked ahead of the work that spoils it is a
    *before* reading and stays ahead of all such work. Links that others imply are left out, those
    that would contradict the ones given as well: what somebody linked by hand stands, and what
    somebody `cut` is not drawn. ValueError for unknown kinds.
    """
    drawing = _Drawing(_with_wheels_on(jobs, strips), links, cut)
    drawing.before_readings()
    for strip in strips:
        drawing.strip(*strip)
    drawing.cold_tests()
    drawing.voids(drawing.measuring)
    for rule in RULES:
        drawing.rule(rule)
    drawing.sparks()
    drawing.tyres()
    drawing.chain()
    for rule in AFTER_CHAIN:
        drawing.rule(rule)
    drawing.voids(id for id in drawing.later if id not in drawing.measuring)
    return drawing.needed()


def _with_wheels_on(jobs: Mapping[int, CarJob], strips: Iterable[Pair]) -> dict[int, CarJob]:
    """Wheels off and on as the last act of a stripped car: these are the wheels going on."""
    lasts = {last for _, last in strips if last in jobs and jobs[last].kinds == ("wheel_off",)}
    return {id: replace(job, kinds=(ON_WHEELS,)) if id in lasts else job for id, job in jobs.items()}


class _Drawing:
    """Links drawn one after another, the strongest first; one that contradicts is not drawn."""

    def __init__(self, jobs: Mapping[int, CarJob], links: Collection[Pair], cut: Collection[Pair]) -> None:
        self.jobs, self.links, self.cut = jobs, links, frozenset(cut)
        self.given = Order(links)
        self.order = self.given.copy()
        self.why: dict[Pair, str] = {}
        self.voided = {id: voided_by(job.kinds) for id, job in jobs.items()}
        self.ahead = {id for id in jobs if self._is_before_reading(id)}
        self.later = [id for id in jobs if id not in self.ahead]
        self.sorts: dict[Says, dict[int, None]] = {}
        stands = {id: job.stages for id, job in jobs.items() if id not in self.ahead}
        self.measuring = sorted(
            (id for id in self.later if stands[id]), key=lambda id: (stands[id][-1], -stands[id][0], id)
        )

    def draw(self, before: int, after: int, why: str) -> None:
        if (before, after) not in self.cut and self.order.take(before, after):
            self.why[before, after] = why

    def before_readings(self) -> None:
        for reading, worked in product(self.ahead, self.later):
            if made_safe(self.jobs[worked]):
                self.draw(worked, reading, MADE_SAFE)
            elif self.jobs[worked].step in (None, ChainStep.RACK) and self.voided[worked].intersection(
                self.jobs[reading].measures
            ):
                self.draw(reading, worked, READ_FIRST)

    def strip(self, stripped: int, whole: int) -> None:
        """Nobody measures, runs or drives a stripped car, and it goes on its wheels once its work is over."""
        jobs, order = self.jobs, self.order
        on_wheels = [id for id in self.measuring if jobs[id].step == ChainStep.ON_WHEELS]
        within = [id for id in self.later if id == stripped or order.leads(stripped, id) or stripped not in jobs]
        for id, wheels in product(within, on_wheels):
            over = id == whole and bool(jobs[id].works)
            if (over or order.leads(id, whole)) and jobs[id].step is None:
                self.draw(id, wheels, ON_ITS_WHEELS)
        running = [id for id in self.later if jobs[id].runs and jobs[id].step is None]
        for id in (*self.measuring, *running, *(reading for reading in self.ahead if jobs[reading].stages)):
            if id in (stripped, whole, *on_wheels) or order.leads(id, stripped):
                continue
            if (stripped not in jobs or order.leads(stripped, id)) and order.leads(id, whole):
                continue  # a check within the work, such as a clearance on the stands
            if id in self.ahead and stripped in jobs:
                self.draw(id, stripped, READ_FIRST)
            else:
                self.draw(whole, id, STRIPPED)

    def voids(self, takers: Iterable[int]) -> None:
        """Work comes before whatever takes a reading that it spoils; inside the chain the chain says."""
        spoiling = [id for id in self.later if self.voided[id]]
        taking = [id for id in takers if self.jobs[id].measures]
        for taken, worked in product(taking, spoiling):
            both_measure = self.jobs[taken].step is not None and self.jobs[worked].step is not None
            if taken != worked and not both_measure and (spoilt := self._spoilt(worked, taken)):
                self.draw(worked, taken, WOULD_VOID.format(READINGS[spoilt].label.lower()))

    def rule(self, rule: Rule) -> None:
        first, then = self._of_sort(rule.first), self._of_sort(rule.then)
        measured = [id for id in self.measuring if id in then]
        for taken, worked in product(dict.fromkeys([*measured, *then]), first):
            if not (rule.corner and are_apart(self.jobs[worked].corner, self.jobs[taken].corner)):
                self.draw(worked, taken, rule.why)

    def _of_sort(self, says: Says) -> dict[int, None]:
        """Asked once of each job, however many rules name the sort."""
        if says not in self.sorts:
            self.sorts[says] = dict.fromkeys(id for id in self.later if says(self.jobs[id]))
        return self.sorts[says]

    def sparks(self) -> None:
        """What is cleared away for some sparks is away for all of them, and what goes back after some after all."""
        hot = [id for id in self.later if self.jobs[id].does(HOT)]
        burning = [id for id in self.later if self.jobs[id].does(BURNS) and id not in hot]
        for id, weld in product(burning, hot):
            if any(self.given.leads(id, other) for other in hot):
                self.draw(id, weld, BARED)
            elif self.given.leads_any(hot, id):
                self.draw(weld, id, CLOSED_UP)

    def tyres(self) -> None:
        """As soon as wheels come off anyhow: after the first work that has them off, not after all of it."""
        jobs = self.jobs
        off = [id for id in self.later if wheels_off(jobs[id])]
        first = [id for id in off if not self.order.leads_any(off, id)]
        for tyre in (id for id in self.later if fits_tyres(jobs[id])):
            there = [id for id in first if not are_apart(jobs[id].corner, jobs[tyre].corner)]
            for wheels in there[:1]:
                self.draw(wheels, tyre, TYRES)

    def cold_tests(self) -> None:
        """What is proved with the engine off comes before it runs, unless that was proved already."""
        running = [id for id in self.later if self.jobs[id].runs]
        for reading in PROVED_COLD:
            tests = self._tests(reading)
            for run in running:
                if not self.order.leads_any(tests, run):
                    for test in tests:
                        self.draw(test, run, PROVED)

    def _tests(self, reading: str) -> list[int]:
        """Those of the last look before an event only where something was opened and nothing else proves it."""
        cold = [id for id in self.later if reading in self.jobs[id].measures and not self.jobs[id].runs]
        looks = [id for id in self.later if looks_over(self.jobs[id])]
        early = [id for id in cold if not self.given.leads_any(looks, id)]
        opened = any(reading in voided for voided in self.voided.values())
        return early or (cold if opened else [])

    def chain(self) -> None:
        """Neighbours before the rest: what they imply need not be said again.

        What somebody's own links put ahead of an earlier step, such as hoses looked at on the stands, is done there.
        What a later step disturbs and does not take again is measured after it.
        """
        stage = {id: self._stage(id) for id in self.measuring}
        linked_ahead_of = {id: self._step_behind(id, stage) for id in self.measuring}
        for earlier, later in combinations(self.measuring, 2):
            at_home = linked_ahead_of[later] > stage[earlier][0]
            if at_home and (voids := self._leaves_void(later, earlier)) and not self._leaves_void(earlier, later):
                self.draw(later, earlier, WOULD_VOID.format(READINGS[voids[0]].label.lower()))
        for earlier, later in (*pairwise(self.measuring), *combinations(self.measuring, 2)):
            if linked_ahead_of[later] <= stage[earlier][0]:
                if spoilt := self._spoilt(later, earlier):
                    self.draw(later, earlier, WOULD_VOID.format(READINGS[spoilt].label.lower()))
            elif stage[earlier] < stage[later]:
                self.draw(earlier, later, IN_THIS_ORDER)

    def _leaves_void(self, worked: int, taken: int) -> tuple[str, ...]:
        """The readings of the one that the other, a step of the chain too, disturbs and does not take again."""
        left = self.voided[worked].intersection(self.jobs[taken].measures).difference(self.jobs[worked].measures)
        return in_measuring_order(left)

    def _step_behind(self, id: int, stage: Mapping[int, tuple[ChainStep, int]]) -> float:
        """The earliest step that somebody's links put behind it although the chain has it first."""
        least = min([stage[other][0] for other in self.given.behind(id, self.measuring)], default=inf)
        return least if least < stage[id][0] else inf

    def needed(self) -> dict[Pair, str]:
        """Of the links that were drawn those that say something the others do not."""
        onward: dict[int, set[int]] = {}
        for before, after in (*self.links, *self.why):
            onward.setdefault(before, set()).add(after)
        return {
            (before, after): why
            for (before, after), why in self.why.items()
            if not self.order.leads_any(onward[before], after)
        }

    def _stage(self, id: int) -> tuple[ChainStep, int]:
        """A job of several steps stands where its last one does; of two such, the shorter one first."""
        stages = self.jobs[id].stages
        return stages[-1], -stages[0]

    def _is_before_reading(self, id: int) -> bool:
        """It only measures, linked ahead of work that spoils it and does not take it again, after none on stands."""
        taken = self.jobs[id]
        if taken.again or taken.kinds or not taken.measures:
            return False
        spoiling = [
            other
            for other, voided in self.voided.items()
            if self.jobs[other].step in (None, ChainStep.RACK) and voided.intersection(taken.measures)
        ]
        ahead_of_work = any(
            self.given.leads(id, other)
            for other in spoiling
            if self.voided[other].intersection(taken.measures).difference(self.jobs[other].measures)
        )
        on_stands = [other for other, job in self.jobs.items() if job.does(ON_STANDS)]
        return ahead_of_work and not self.given.leads_any((*spoiling, *on_stands), id)

    def _spoilt(self, worked: int, taken: int) -> str | None:
        """A reading that the work spoils for the job that takes it, or None where it need not be first."""
        voids = self.voided[worked].intersection(self.jobs[taken].measures)
        spoilt = voids.difference(self.jobs[worked].measures)
        looks = self.jobs[taken].step is not None or not self.jobs[taken].works
        if not spoilt and looks and voids and not self.voided[taken] & voids:
            spoilt = voids
        return in_measuring_order(spoilt)[0] if spoilt else None


def untaken(
    need: Collection[str], jobs: Mapping[int, CarJob], links: Iterable[Pair], cut: Collection[Pair] = ()
) -> tuple[str, ...]:
    """Readings (slugs, in measuring order) that no job takes after all the work that disturbs them.

    `links` (before, after) are all there are, those of the order of work too; what somebody `cut` loose
    from work that disturbs it may be done before that work. ValueError for unknown kinds and readings.
    """
    order, loose = Order(links), frozenset(cut)

    def early(spoils: int, takes: int) -> bool:
        return (spoils, takes) in loose and not order.leads(spoils, takes)

    def taken(slug: str) -> bool:
        spoiling = [job for job, work in jobs.items() if slug in voided_by(work.kinds)]
        return any(
            slug in work.measures and not any(order.leads(job, other) or early(other, job) for other in spoiling)
            for job, work in jobs.items()
        )

    return tuple(slug for slug in in_measuring_order(need) if not taken(slug))
