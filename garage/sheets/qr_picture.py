"""A QR code for the screen: one path, so that a page draws it without a picture to fetch."""

from dataclasses import dataclass

from garage.sheets.qr_code import qr_code


@dataclass(frozen=True)
class QrPicture:
    """`path` in units of a module, within a square of `size`, quiet zone included (ISO/IEC 18004, level M)."""

    path: str
    size: int


def qr_picture(address: str) -> QrPicture:
    code = qr_code(address)
    return QrPicture("".join(f"M{column} {line}h{long}v1h-{long}z" for line, column, long in code.runs), code.size)
