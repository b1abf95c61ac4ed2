"""Steel bolts: proof stress by class, preload and torque."""

import math

from parts.engine.fit.thread import Thread

# MPa. Source: ISO 898-1; up to 16 mm and above it where they differ. From memory: 4.6, 5.6, 9.8.
_PROOF = {"4.6": 225.0, "5.6": 280.0, "8.8": 580.0, "9.8": 650.0, "10.9": 830.0, "12.9": 970.0}
_PROOF_THICK = {"8.8": 600.0}
# psi. Source: SAE J429, from memory.
_GRADES = {"grade 5": 85_000.0, "grade 8": 120_000.0}
PSI = 0.00689475729316836  # MPa
CLASSES = (*_PROOF, *_GRADES)
# The part of proof to which a joint that is undone again is tightened. Source: Shigley, as cited.
REUSED = 0.75


def proof_stress(grade: str, diameter: float) -> float:
    """MPa at which a bolt of that class (a key of `CLASSES`) and diameter (mm) begins to stay longer."""
    if grade in _GRADES:
        return _GRADES[grade] * PSI
    return _PROOF_THICK.get(grade, _PROOF[grade]) if diameter > 16 else _PROOF[grade]


def proof_load(thread: Thread, grade: str) -> float:
    """N, on the nominal stress area."""
    return proof_stress(grade, float(thread.diameter)) * thread.stress_area


def torque_for(preload: float, diameter: float, k: float) -> float:
    """N·m for a preload (N), nominal diameter (mm) and nut factor. Source: T = K d F."""
    return k * diameter / 1000 * preload


def nut_factor(thread: Thread, friction: float, bearing: float) -> float:
    """K from a coefficient of friction, the same in thread and under the head; `bearing` mm across its middle.

    T / F = P / 2π + μ d2 / (2 cos 30°) + μ bearing / 2. Source: the long form, Shigley, as cited.
    """
    pitch, across = float(thread.pitch), float(thread.diameter)
    flanks = across - 0.649519 * pitch
    arm = pitch / (2 * math.pi) + friction * flanks / (2 * math.cos(math.radians(30))) + friction * bearing / 2
    return arm / across


def preload_of(torque: float, diameter: float, k: float) -> float:
    """N for a torque (N·m), diameter (mm) and nut factor."""
    return torque / (k * diameter / 1000)
