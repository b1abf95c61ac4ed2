"""The dark runs of a QR code, worked out once for each address that a process draws."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby

from reportlab.graphics.barcode.qrencoder import QRCode, QRErrorCorrectLevel

QUIET = 4
KEPT = 1000  # codes, each some kB: more than the labels of a garage's shelf


@dataclass(frozen=True)
class QrCode:
    """`runs` are line, column and length of what is dark, in modules from the upper left of a square of `size`.

    The quiet zone is inside the size (ISO/IEC 18004, level M).
    """

    size: int
    runs: tuple[tuple[int, int, int], ...]


@lru_cache(KEPT)
def qr_code(address: str) -> QrCode:
    """Choosing the mask takes longer than all else on a label, so that each is chosen once."""
    code = QRCode(None, QRErrorCorrectLevel.M)
    code.addData(address)
    code.make()
    runs = []
    for line, modules in enumerate(code.modules, QUIET):
        column = QUIET
        for dark, run in groupby(modules, bool):
            long = sum(1 for _ in run)
            if dark:
                runs.append((line, column, long))
            column += long
    return QrCode(code.getModuleCount() + 2 * QUIET, tuple(runs))
