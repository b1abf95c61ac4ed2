"""Whatever is put on a car, no measurement comes before what makes it void, and nothing in a circle."""

from hypothesis import given
from hypothesis import strategies as st

from builds.readings.engine.kinds_of_work import KINDS, voided_by
from builds.readings.engine.order_of_work import STAGE, CarJob, order_of_work
from builds.readings.engine.vocabulary import READINGS
from builds.recipes.engine.parse import load_shipped
from garage.engine.systems import SYSTEMS

RECIPES = {recipe.key: recipe for recipe in load_shipped()}
by_hand = st.builds(
    CarJob,
    kinds=st.lists(st.sampled_from(sorted(KINDS)), max_size=2).map(tuple),
    measures=st.lists(st.sampled_from(sorted(READINGS)), max_size=3).map(tuple),
    systems=st.lists(st.sampled_from(sorted(SYSTEMS)), max_size=2).map(tuple),
)


def on_car(recipes):
    """Jobs of several recipes with the links inside each."""
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
    after = {other for other in spoiling if id in ahead.get(other, ()) and not STAGE.keys() & set(jobs[other].measures)}
    return not jobs[id].kinds and bool(after) and not spoiling & ahead.get(id, set())


@given(
    st.lists(st.sampled_from(sorted(RECIPES)), min_size=1, max_size=6, unique=True),
    st.lists(by_hand, max_size=6),
)
def test_recipes_and_jobs_by_hand_meet_in_the_order_of_work(keys, hand):
    jobs, links = on_car([RECIPES[key] for key in keys])
    jobs |= {10_000 + place: job for place, job in enumerate(hand)}
    given_ahead = ahead_of(links)
    ahead = ahead_of([*links, *order_of_work(jobs, links)])
    chain = {id: job for id, job in jobs.items() if STAGE.keys() & set(job.measures)}
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
