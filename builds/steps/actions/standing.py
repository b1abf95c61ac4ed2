"""How a car stands follows from the work that takes it off its wheels, puts it on them, or drives it."""

from builds.work.models.job import Job
from builds.work.models.link import StationHold
from garage.models import Vehicle

DRIVEABLE, ROLLING, STANDS = Vehicle.State.DRIVEABLE, Vehicle.State.ROLLING, Vehicle.State.STANDS


def puts_wheels_on(job: Job) -> bool:
    """Wheels off and on, as the last act of a stripped car, are the wheels going on."""
    return "wheels_on" in job.kinds or job.kinds == ["wheel_off"]


def begun(job: Job) -> None:
    """Hands went to it: where it strips a car until its wheels go on, the car is on stands from now on."""
    holds = StationHold.objects.filter(first=job).select_related("last")
    if any(puts_wheels_on(hold.last) and hold.last.finished_at is None for hold in holds):
        _off_its_wheels(job)


def ended(job: Job) -> None:
    """Its work is over, signed or not: a car whose wheels went on stands as it did before it was taken apart."""
    begun(job)
    last = StationHold.objects.filter(last=job).exists() or "wheels_on" in job.kinds
    if last and puts_wheels_on(job) and not _apart(job.vehicle):
        _on_its_wheels(job)
    if "driven" in job.kinds and not _apart(job.vehicle):
        _change(job, state=DRIVEABLE, stood="")


def undone(job: Job) -> None:
    """Opened again, or gone back to: a car whose wheels it had put on is off them."""
    if puts_wheels_on(job) and StationHold.objects.filter(last=job).stripped().exists():
        _off_its_wheels(job)


def _apart(vehicle: Vehicle) -> bool:
    strips = StationHold.objects.filter(last__vehicle=vehicle, last__finished_at=None).stripped()
    return any(puts_wheels_on(hold.last) for hold in strips.select_related("last"))


def _off_its_wheels(job: Job) -> None:
    stood = Vehicle.objects.values_list("state", flat=True).get(pk=job.vehicle_id)
    if stood != STANDS:
        _change(job, state=STANDS, stood=stood)


def _on_its_wheels(job: Job) -> None:
    state, stood = Vehicle.objects.values_list("state", "stood").get(pk=job.vehicle_id)
    if state == STANDS:
        _change(job, state=stood or ROLLING, stood="")


def _change(job: Job, *, state: str, stood: str) -> None:
    Vehicle.objects.filter(pk=job.vehicle_id).update(state=state, stood=stood)
    job.vehicle.state, job.vehicle.stood = state, stood
