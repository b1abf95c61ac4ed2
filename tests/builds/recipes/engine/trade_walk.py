"""A plan of one car walked from front to back as somebody who knows the trade would; faults in words.

Written from the trade's rules alone: it knows nothing of how the order of work is drawn. Common practice,
no source.
"""

from collections.abc import Collection, Sequence

from tests.builds.recipes.engine.merge_kit import Car, Job

OPENS_CORNER = {"hub_opened", "joint_opened", "bushing_or_mount", "steering_arm"}
OPENS_BRAKES = {"hydraulics_opened", "friction_parts"}
GEOMETRY = ("ride_height", "bump_steer", "corner_weights", "camber", "caster", "toe_rear", "toe_front")
# What a mechanic would not do any more once the car stands loaded on its pads.
BODY = {"hot_work", "chassis_weld", "paint", "fuel_line", "seat_work", "seat_or_belt_moved", "coolant"}
MOVES = {  # what is void after the work: the trade's own table, its rows for what recipes do
    "spring_change": "ride_height corner_weights camber caster toe_front toe_rear",
    "tyre_or_pressure": "ride_height corner_weights camber toe_front toe_rear",
    "bar_preload": "ride_height corner_weights",
    "camber_front": "ride_height corner_weights camber caster toe_front bump_steer",
    "front_trim": "ride_height corner_weights camber caster toe_front",
    "rear_trim": "ride_height corner_weights camber toe_front toe_rear",
    "steering_arm": "toe_front bump_steer",
    "bushing_or_mount": "ride_height corner_weights camber caster toe_front toe_rear bump_steer",
    "chassis_weld": "ride_height corner_weights camber caster toe_front toe_rear bump_steer",
    "mass_unit_moved": "ride_height corner_weights camber toe_front toe_rear",
    "rack_moved": "toe_front bump_steer",
    "wheel_or_spacer": "corner_weights camber toe_front",
    "joint_opened": "toe_front toe_rear",
    "jam_nut": "toe_front",
}


def faults(walk: Sequence[Job], stripped: Collection[tuple[Job, Collection[Job]]]) -> list[str]:
    """What a mechanic would object to; `stripped` are the jobs that strip the car, each with all of its strip."""
    told = [*_on_its_wheels(walk, stripped), *_corner(walk), *_hub(walk), *_measured(walk), *_body(walk)]
    return [*told, *_running(walk), *_seat(walk), *_looked_over(walk)]


def _does(job: Job, kinds: Collection[str]) -> bool:
    return not set(kinds).isdisjoint(job.kinds)


def _on_its_wheels(walk: Sequence[Job], stripped: Collection[tuple[Job, Collection[Job]]]) -> list[str]:
    told = []
    for at, job in enumerate(walk):
        if "wheels_on" not in job.kinds:
            continue
        for first, within in stripped:
            begun = walk.index(first) < at
            left = [other.title for other in walk[at + 1 :] if any(other is one for one in within)]
            if begun and left:
                told.append(f"on its wheels while stripped: “{left[0]}” comes after “{job.title}”")
    return told


def _corner(walk: Sequence[Job]) -> list[str]:
    """Hub and arms, then discs and calipers, then the bleed, then spacers and wheels."""
    told, later = [], []
    for job in reversed(walk):
        for other in later:
            if "friction_parts" in job.kinds and _does(other, {"hub_opened"}):
                told.append(f"discs and calipers are on before “{other.title}”")
            if {"wheel_off", "wheel_or_spacer"} <= set(job.kinds) and _does(other, OPENS_CORNER | OPENS_BRAKES):
                told.append(f"spacers and wheels are on before “{other.title}”")
            if "brake_bleed" in job.measures and _does(other, OPENS_BRAKES) and not _bled(later, other):
                told.append(f"bled before “{other.title}”, and not again")
        later.append(job)
    return told


def _hub(walk: Sequence[Job]) -> list[str]:
    """A hub is closed once, on arms that hang: what it hangs on is not off, being made or in paint."""
    told = []
    for at, job in enumerate(walk):
        if not ("hub_opened" in job.kinds and "bearing_play" in job.measures):
            continue
        for other in walk[at + 1 :]:
            off = _does(other, {"wheel_off"}) and _does(other, OPENS_CORNER) and not other.measures
            hangs = _does(other, {"bushing_or_mount"}) or other.title.startswith(("Refit the arm", "Prime the arm"))
            again = "hub_opened" in other.kinds and _does(other, {"joint_opened"})
            if (off or hangs or again) and _one_side(job, other):
                told.append(f"the hub is closed in “{job.title}” before “{other.title}”")
    return told


def _one_side(job: Job, other: Job) -> bool:
    """Unless one is of the left and the other of the right."""
    return {"left", "right"} != {one.title.rpartition(", ")[2] for one in (job, other)}


def _bled(later: Sequence[Job], opened: Job) -> bool:
    after = later[: next(at for at, job in enumerate(later) if job is opened)]  # `later` runs backwards
    return any("brake_bleed" in job.measures for job in after)


def _measured(walk: Sequence[Job]) -> list[str]:
    """Whatever is read of the geometry at all is read after the last work that moved it."""
    told = []
    for reading in GEOMETRY:
        taken = [at for at, job in enumerate(walk) if reading in job.measures and not job.before]
        moved = [at for at, job in enumerate(walk) if any(reading in MOVES.get(kind, "").split() for kind in job.kinds)]
        if taken and moved and max(moved) > max(taken):
            told.append(f"{reading} was read before “{walk[max(moved)].title}”")
    return told


def _body(walk: Sequence[Job]) -> list[str]:
    """Metal, paint, lines and seat are finished before pressures are set and the car is loaded."""
    loaded = [at for at, job in enumerate(walk) if {"tyre_pressures", "corner_weights"} & set(job.measures)]
    loaded = [at for at in loaded if not walk[at].before]
    if not loaded:
        return []
    late = [job for job in walk[min(loaded) :] if _does(job, BODY) and "wheel_torque" not in job.measures]
    return [f"loaded as raced before “{job.title}”" for job in late]


def _running(walk: Sequence[Job]) -> list[str]:
    told, opened, bled = [], "", ""
    for at, job in enumerate(walk):
        if "fuel_line" in job.kinds:
            opened = job.title
        if "hydraulics_opened" in job.kinds:
            bled = job.title
        if "fuel_leak" in job.measures and not _does(job, {"engine_run", "driven"}):
            opened = ""
        if "brake_bleed" in job.measures:
            bled = ""
        if opened and _does(job, {"engine_run", "driven"}):
            told.append(f"“{job.title}” runs the engine with the fuel open since “{opened}”")
        if "driven" not in job.kinds:
            continue
        if bled:
            told.append(f"“{job.title}” drives with brakes open since “{bled}”")
        for other in walk[at + 1 :]:
            proves = {*GEOMETRY, "wheel_torque", "lock_clearance", "fuel_leak", "master_switch", "throttle_return"}
            if proves & set(other.measures) and "driven" not in other.kinds:
                told.append(f"driven in “{job.title}” before “{other.title}”")
    return told


def _seat(walk: Sequence[Job]) -> list[str]:
    """No sparks once belts and seat are in."""
    fitted = [
        at for at, job in enumerate(walk) if {"belt_geometry", "ballast_position"} & set(job.measures) and job.kinds
    ]
    sparks = [job for job in walk[min(fitted) :] if _does(job, {"hot_work", "chassis_weld"})] if fitted else []
    return [f"sparks over the belts: “{job.title}”" for job in sparks]


def _looked_over(walk: Sequence[Job]) -> list[str]:
    """A look for leaks at a car that is finished comes after the work."""
    told = []
    for at, job in enumerate(walk):
        if (
            "leak_check" in job.measures
            and "fluid_levels" in job.measures
            and not job.kinds
            and "routing" not in job.measures
        ):
            worked = OPENS_CORNER | OPENS_BRAKES | BODY | {"spring_change", "front_trim"}
            told += [f"fluids looked over before “{other.title}”" for other in walk[at + 1 :] if _does(other, worked)]
    return told


def strips_of(car: Car) -> list[tuple[Job, list[Job]]]:
    """Jobs that strip the car, each with what its own links put between it and the end of the strip, work there too."""
    behind: dict[int, set[int]] = {id: set() for id in car.jobs}
    for before, after in car.links:
        behind[before].add(after)

    def leads_to(id: int) -> set[int]:
        seen, waiting = set(), [id]
        while waiting:
            new = behind[waiting.pop()] - seen
            seen |= new
            waiting += new
        return seen

    def works(id: int) -> bool:
        return bool({*car.jobs[id].kinds} - {"engine_run", "driven", "wheels_on", "wheel_off"})

    return [
        (
            car.jobs[first],
            [car.jobs[id] for id in leads_to(first) if last in leads_to(id) or (id == last and works(id))],
        )
        for first, last in sorted(car.strips)
    ]
