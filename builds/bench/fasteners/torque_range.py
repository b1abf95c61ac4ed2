"""The torque that a thread and a class take, to stand beside the maker's figure of a joint."""

from dataclasses import dataclass

from builds.bench.fasteners.steel import CLASSES, REUSED, preload_of, proof_load, torque_for
from parts.engine.fit.designation import parse
from parts.engine.fit.numbers import FitError

OILED, DRY = 0.15, 0.20


@dataclass(frozen=True, slots=True)
class TorqueRange:
    """N·m for 75 % of proof, oiled and dry; `share` is per cent of proof that a torque asked for comes to when dry."""

    low: float
    high: float
    share: float | None = None

    @property
    def too_much(self) -> bool:
        return self.share is not None and self.share > 100 * REUSED


def torque_range(thread: str, grade: str, asked: float | None = None) -> TorqueRange | None:
    """Of a thread and a class as they are written, `asked` N·m; None where one of them says nothing.

    Source: ISO 898-1, T = K d F. Common practice for clean steel without a gasket: not for wheel nuts, bolts that
    yield, or alloy.
    """
    written = grade.strip().lower()
    try:
        known = parse(thread)
    except FitError:
        return None
    if written not in CLASSES:
        return None
    proof, across = proof_load(known, written), float(known.diameter)
    low, high = (torque_for(REUSED * proof, across, k) for k in (OILED, DRY))
    return TorqueRange(low, high, None if asked is None else 100 * preload_of(asked, across, DRY) / proof)
