"""The systems of a car that a job or a part belongs to."""

from dataclasses import dataclass

from garage.engine.vocabulary import by_slug


@dataclass(frozen=True, slots=True)
class System:
    """A part of the car that a job can touch; `safety` when someone gets hurt if it fails."""

    slug: str
    label: str
    safety: bool = False


SYSTEMS: dict[str, System] = by_slug(
    [
        System("steering", "Steering", safety=True),
        System("brakes", "Brakes", safety=True),
        System("suspension", "Suspension", safety=True),
        System("wheels", "Wheels and tyres", safety=True),
        System("restraint", "Restraint", safety=True),
        System("seat", "Seat", safety=True),
        System("fuel", "Fuel", safety=True),
        System("fire", "Fire", safety=True),
        System("cage", "Cage", safety=True),
        System("engine", "Engine"),
        System("gearbox", "Clutch and gearbox"),
        System("driveline", "Driveline"),
        System("cooling", "Cooling"),
        System("exhaust", "Exhaust"),
        System("electrics", "Electrics"),
        System("fluids", "Fluids"),
        System("body", "Body"),
        System("paint", "Paint"),
        System("glass", "Glass"),
    ]
)
SAFETY_SYSTEMS = frozenset(slug for slug, system in SYSTEMS.items() if system.safety)
SYSTEM_LABELS: dict[str, str] = {slug: system.label for slug, system in SYSTEMS.items()}
