"""Whatever is put on a car, no measurement comes before what makes it void, and nothing in a circle."""

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from builds.readings.engine.car_job import CarJob, ChainStep
from builds.readings.engine.kinds_of_work import KINDS, voided_by
from builds.readings.engine.order_of_work import order_of_work
from builds.readings.engine.vocabulary import READINGS
from builds.readings.engine.what_leads import Order
from builds.recipes.engine.parse import load_shipped
from garage.actions.garages import STANDS
from garage.engine.systems import SYSTEMS
from tests.builds.readings.typed import typed
from tests.builds.recipes.engine.merge_kit import Car, Job, car_with, some_order
from tests.builds.recipes.engine.trade_walk import faults, strips_of
from tests.property.tries import tries

RECIPES = {recipe.key: recipe for recipe in load_shipped()}
by_hand = st.builds(
    CarJob,
    kinds=st.lists(st.sampled_from(sorted(KINDS)), max_size=2).map(tuple),
    measures=st.lists(st.sampled_from(sorted(READINGS)), max_size=3).map(tuple),
    systems=st.lists(st.sampled_from(sorted(SYSTEMS)), max_size=2).map(tuple),
)
recipes = st.lists(st.sampled_from(sorted(RECIPES)), min_size=1, max_size=6, unique=True)
seeds = st.integers(0, 999)


def on_car(recipes):
    """Jobs of several recipes with the links inside each, none of them joined."""
    jobs, links = {}, []
    for number, recipe in enumerate(recipes):
        ids = {job.key: number * 100 + place for place, job in enumerate(recipe.jobs)}
        for job in recipe.jobs:
            jobs[ids[job.key]] = CarJob(job.kinds, job.measures, job.systems)
            links += [(ids[link.job], ids[job.key]) for link in job.after]
    return jobs, links


def ahead_of(links):
    """For each job all that come before it, found anew from the front; a circle is an AssertionError."""
    before, waiting = {}, {}
    for first, then in set(links):
        before.setdefault(then, set()).add(first)
        before.setdefault(first, set())
    ahead = {}
    waiting = {job: len(firsts) for job, firsts in before.items()}
    ready = [job for job, count in waiting.items() if not count]
    while ready:
        job = ready.pop()
        ahead[job] = set().union(before[job], *(ahead[first] for first in before[job]))
        for then in (then for then, firsts in before.items() if job in firsts):
            waiting[then] -= 1
            if not waiting[then]:
                ready.append(then)
    assert len(ahead) == len(before), "in a circle"
    return ahead


def before_reading(id, jobs, ahead):
    """It only measures, ahead of work of its own recipe that spoils it and after none."""
    spoiling = {other for other, work in jobs.items() if voided_by(work.kinds) & set(jobs[id].measures)}
    after = {other for other in spoiling if id in ahead.get(other, ()) and jobs[other].step in (None, ChainStep.RACK)}
    return not jobs[id].kinds and bool(after) and not any(jobs[other].works for other in ahead.get(id, ()))


@given(recipes, st.lists(by_hand, max_size=6))
def test_recipes_and_jobs_by_hand_meet_in_the_order_of_work(keys, hand):
    jobs, links = on_car([RECIPES[key] for key in keys])
    jobs |= {10_000 + place: job for place, job in enumerate(hand)}
    given_ahead = ahead_of(links)
    ahead = ahead_of([*links, *order_of_work(jobs, links)])
    chain = {id: job for id, job in jobs.items() if job.stages}
    noted = {id for id in chain if before_reading(id, jobs, given_ahead)}
    work = {id: job for id, job in jobs.items() if id not in chain}

    def leads(id, other):
        """By the links given, or through a *before* reading that has to come ahead of the other."""
        steps = {note for note in noted if voided_by(jobs[other].kinds) & set(jobs[note].measures)} | {other}
        return any(id in given_ahead.get(step, ()) for step in steps)

    for id, taken in chain.items():
        for other, worked in work.items():
            spoils = voided_by(worked.kinds) & set(taken.measures)
            if spoils and id in noted:
                assert id in ahead.get(other, ())
            elif spoils - set(worked.measures) and not leads(id, other):
                assert other in ahead.get(id, ()), f"{other} spoils {spoils} of {id}"


def walks(car: Car, seed: int) -> list[str]:
    order = some_order(car.jobs, car.all_links(), seed)
    return faults([car.jobs[id] for id in order], strips_of(car))


@given(recipes, seeds)
def test_a_mechanic_has_nothing_against_any_order_that_the_links_allow(keys, seed):
    assert walks(car_with(RECIPES[key] for key in keys), seed) == []


@given(recipes, st.lists(st.sampled_from(["hub_opened", "hot_work", "fuel_line", "spring_change"]), max_size=3), seeds)
def test_nor_where_work_was_written_down_by_hand(keys, kinds, seed):
    car = car_with(RECIPES[key] for key in keys)
    for kind in kinds:
        systems = ("fuel",) if kind == "fuel_line" else ("suspension",)
        car.jobs[len(car.jobs)] = Job(f"By hand: {kind}", (kind,), (), systems)
    car.jobs[len(car.jobs)] = Job("Leak test by hand", (), ("fuel_leak",), ("fuel",))
    assert walks(car, seed) == []


@given(recipes)
def test_no_job_wants_another_place_while_its_car_has_to_stay_where_it_is(keys):
    car = car_with(RECIPES[key] for key in keys)
    order = Order(car.all_links())
    for (first, last), place in car.kept.items():
        for id, job in car.jobs.items():
            wanted = STANDS.intersection(station for _, row in job.rows for station in row.stations)
            if wanted - {place} and order.leads(first, id):
                assert not order.leads(id, last), f"“{job.title}” between “{car.jobs[first].title}” and its end"


@given(recipes)
def test_no_hold_point_waits_for_the_last_act_of_a_job_behind_it(keys):
    car = car_with(RECIPES[key] for key in keys)
    order, jobs = Order(car.links), car.car_jobs()
    for id, job in car.jobs.items():
        signed = {kind for _, row in job.rows if row.hold_points for kind in row.kinds}
        for other in car.jobs:
            if order.leads(id, other) and jobs[other].step == jobs[id].step is not None:
                assert signed.isdisjoint(jobs[other].kinds), f"“{job.title}” signs what “{car.jobs[other].title}” does"


@given(recipes, st.randoms(use_true_random=False))
def test_each_step_of_the_chain_is_done_once_in_whatever_order_recipes_came(keys, chance):
    """But the bars, hooked up once the weights stand, and a check of camber that comes before bump steer."""
    chance.shuffle(keys)
    car = car_with(RECIPES[key] for key in keys)
    at: dict[ChainStep, list[str]] = {}
    for id, job in car.car_jobs().items():
        if job.step is not None and not car.jobs[id].before and "bar_preload" not in job.kinds:
            at.setdefault(job.step, []).append(car.jobs[id].title)
    for step in set(ChainStep) - {ChainStep.TRIMMED, ChainStep.LOCKS, ChainStep.DRIVEN}:
        assert len(at.get(step, ())) <= 1, (step, at[step])


@tries(30)
@given(st.lists(st.sampled_from(sorted(RECIPES)), min_size=7, max_size=14, unique=True), seeds)
def test_nor_with_as_many_recipes_as_a_winter_brings(keys, seed):
    assert walks(car_with(RECIPES[key] for key in keys), seed) == []


# Titles that somebody types, row by row in the order in which a mechanic would do them.
SPARKS, PAINT = ("Weld the sill", "Weld the cage", "Cut out the tunnel"), ("Paint the sill", "Prime the floor")
WAYS = (
    (("Harness out", "Seat out"), SPARKS, PAINT, ("Seat in",), ("Fit the harness",)),
    (("Loom out", "Battery off"), SPARKS, PAINT, ("Refit the loom", "New battery")),
    (("Drain the fuel",), SPARKS),
    (SPARKS, PAINT, ("New windscreen",)),
    (
        ("Wheels off",),
        ("New tyres", "Front pads", "Swap rear dampers", "Wheel bearing left"),
        ("Wheels back on",),
        ("Set ride height",),
        ("Weigh the car",),
        ("Set toe",),
        ("Wheels torqued", "Torque the wheel nuts"),
        ("Test drive",),
    ),
)
titles = st.lists(
    st.sampled_from(sorted({title for rows in WAYS for row in rows for title in row})), max_size=12, unique=True
)


several = st.lists(st.sampled_from(sorted(RECIPES)), max_size=5, unique=True)


@given(titles, several, st.booleans())
def test_what_somebody_types_has_its_place_whatever_recipes_stand_beside_it(typed_titles, keys, met):
    """Whether the recipes met on the car or each was put on it as if it were alone."""
    if met:
        car = car_with(RECIPES[key] for key in keys)
        jobs, links, strips = car.car_jobs(), sorted(car.links), sorted(car.strips)
    else:
        (jobs, links), strips = on_car([RECIPES[key] for key in keys]), []
    names = {title: 10_000 + place for place, title in enumerate(typed_titles)}
    jobs |= {names[title]: typed(title) for title in typed_titles}
    ahead = ahead_of([*links, *order_of_work(jobs, links, strips)])
    for rows in WAYS:
        there = [[title for title in row if title in names] for row in rows]
        for at, row in enumerate(there):
            for first, then in ((first, then) for first in row for later in there[at + 1 :] for then in later):
                assert names[first] in ahead.get(names[then], ()), f"“{first}” before “{then}”"


READS = (
    *("Measure ride height", "Set ride height", "Set camber", "Measure camber", "Bump steer", "Corner balance"),
    *("Weigh the car", "Alignment", "Set rear toe", "Set toe", "Check toe", "Torque the wheels", "Check full lock"),
    *("Tyre pressures", "Bleed brakes", "Bed in the pads", "New springs", "Weld the sill", "New tyres", "Front pads"),
    *("Wheel bearing left", "New master cylinder", "Swap the diff oil", "Harness in", "Test drive"),
)


@given(st.lists(st.sampled_from(READS), min_size=2, max_size=12, unique=True), several)
def test_nothing_typed_is_measured_for_the_last_time_before_what_voids_it(typed_titles, keys):
    """But where each of two disturbs what the other takes, and neither takes both."""
    jobs, links = on_car([RECIPES[key] for key in keys])
    names = {10_000 + place: title for place, title in enumerate(typed_titles)}
    jobs |= {id: typed(title) for id, title in names.items()}
    ahead = ahead_of([*links, *order_of_work(jobs, links)])

    def leaves_void(worked, taken):
        return voided_by(jobs[worked].kinds) & {*jobs[taken].measures} - {*jobs[worked].measures}

    for id, worked in product(names, jobs):
        if id != worked and not leaves_void(id, worked) and worked not in ahead.get(id, ()):
            for reading in leaves_void(worked, id):
                again = [other for other, job in jobs.items() if reading in job.measures]
                assert any(worked in ahead.get(other, ()) for other in again), f"{names[id]}, then {jobs[worked].kinds}"
