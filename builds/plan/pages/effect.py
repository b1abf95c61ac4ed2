"""What a job does to the plan, in words."""

from builds.plan.actions.effect import Effect
from builds.plan.engine.ids import id_of


def effect_words(effect: Effect) -> str:
    """`Heron is then ready Thu 20:30 instead of Thu 19:00, still in time.`"""
    others = (_other(car, effect) for car in effect.entries if car != effect.job.vehicle_id)
    return " ".join(filter(None, [_own(effect), *others]))


def _own(effect: Effect) -> str:
    """What becomes of the job's own car."""
    car, job, clock = effect.job.vehicle, id_of("job", effect.job.pk), effect.plan.clock
    if job in effect.plan.unplaced:
        return f"It finds no place in the plan. {effect.plan.unplaced[job].why}"
    if car.pk not in effect.entries:
        return f"It is done {clock.words(effect.plan.placed[job].end)}; {car} has no event ahead."
    event, was, now = effect.entries[car.pk].event, effect.before[car.pk], effect.after[car.pk]
    if was.in_time and now.in_time is False:
        return f"{car} then does not make {event}: {now.sentence}"
    if was.ready_at is None or now.ready_at is None:
        return f"{car} still does not make {event}: {now.sentence}"
    in_time = "still in time" if now.in_time else "too late, as before"
    ready = clock.said(now.ready_at)
    if was.ready_at == now.ready_at:
        return f"{car} is ready {ready} as before, {in_time}."
    return f"{car} is then ready {ready} instead of {clock.said(was.ready_at)}, {in_time}."


def _other(car: int, effect: Effect) -> str:
    """What becomes of another car, when that differs."""
    was, now = effect.before[car].in_time, effect.after[car].in_time
    if was == now:
        return ""
    verb = "makes" if now else "does not make"
    return f"{effect.entries[car].vehicle} then {verb} {effect.entries[car].event}."
