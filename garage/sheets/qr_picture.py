"""A QR code for the screen: one path, so that a page draws it without a picture to fetch."""

from dataclasses import dataclass
from itertools import groupby

from reportlab.graphics.barcode.qrencoder import QRCode, QRErrorCorrectLevel

from garage.sheets.tag import QUIET


@dataclass(frozen=True)
class QrPicture:
    """`path` in units of a module, within a square of `size`, quiet zone included (ISO/IEC 18004, level M)."""

    path: str
    size: int


def qr_picture(address: str) -> QrPicture:
    code = QRCode(None, QRErrorCorrectLevel.M)
    code.addData(address)
    code.make()
    runs = []
    for line, modules in enumerate(code.modules, QUIET):
        column = QUIET
        for dark, run in groupby(modules, bool):
            long = sum(1 for _ in run)
            if dark:
                runs.append(f"M{column} {line}h{long}v1h-{long}z")
            column += long
    return QrPicture("".join(runs), code.getModuleCount() + 2 * QUIET)
