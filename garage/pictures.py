"""A picture as it was sent, made into the two that are kept: upright, small, nothing hidden."""

import ctypes
from contextlib import suppress
from io import BytesIO
from typing import NamedTuple

from PIL import Image

from garage.actions.refused import Refused
from garage.engine.picture_sizes import (
    MOST_BYTES,
    MOST_OPENING,
    MOST_PIXELS,
    MOST_SIDE,
    SIZES,
    fit,
    opening_bytes,
    too_large,
)

try:
    from pillow_heif import register_heif_opener
except ImportError:  # an extra (see DEVELOPERS.md)
    READS_HEIC = False
else:
    register_heif_opener(thumbnails=False, depth_images=False, aux_images=False)
    READS_HEIC = True
FORMATS = ["JPEG", "PNG", "WEBP"]
# Brands of the file type box of pictures coded with HEVC: ISO/IEC 23008-12, annex B, and ISO/IEC 14496-12, 4.3
# (from memory).
HEIC = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs", b"mif1", b"msf1"}
MOST_SCANS = 100
ORIENTATION = 0x0112
# Exif 2.32, table 6: what makes each orientation upright.
UPRIGHT = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
NO_HEIC = (
    "is a HEIC picture, which is not read here: set the camera to JPEG or to “most compatible”, or send it as a JPEG"
)
NOT_ONE = "is not a JPEG, PNG or WebP picture, or it is broken: take it again, or send another"


class PhotoFiles(NamedTuple):
    width: int
    height: int
    files: dict[str, bytes]  # JPEG, by the names of SIZES


def read_picture(data: bytes) -> PhotoFiles:
    """The picture in `data`, or `Refused` with the end of a sentence that begins with its name.

    A large one takes some hundred MB for a second: `photo_files.alone` has them come one after the other.
    """
    if len(data) > MOST_BYTES:
        raise Refused(f"is larger than {MOST_BYTES >> 20} MB")
    _give_back()
    try:
        return _read(data)
    except Refused:
        raise
    except Exception as error:  # whatever a parser raises over a hostile file
        raise Refused(NOT_ONE) from error
    finally:
        _give_back()


def _give_back() -> None:
    """What is free goes back to the machine: the C library keeps it for each thread that has ever read something in."""
    with suppress(AttributeError, OSError):  # elsewhere than with glibc
        ctypes.CDLL(None).malloc_trim(0)


def _read(data: bytes) -> PhotoFiles:
    heic = data[4:8] == b"ftyp" and data[8:12] in HEIC
    if heic and not READS_HEIC:
        raise Refused(NO_HEIC)
    _measure(_webp_size(data) or (1, 1))  # Pillow makes room for a WebP picture on opening it
    try:
        image: Image.Image = Image.open(BytesIO(data), formats=["HEIF"] if heic else FORMATS)
    except Image.DecompressionBombError:
        _measure((MOST_SIDE + 1, MOST_SIDE + 1))
        raise
    _measure(image.size)
    # A phone's depth or brightness map rides behind the picture (MPO); only the first is read.
    if image.format != "MPO" and getattr(image, "n_frames", 1) > 1:
        raise Refused("moves: send one picture of it")
    if image.format in ("JPEG", "MPO") and data.count(b"\xff\xda") > MOST_SCANS:
        raise Refused(NOT_ONE)
    _weigh(image)
    turn = UPRIGHT.get(image.getexif().get(ORIENTATION, 1))
    longest = SIZES["large"][0]
    if image.format in ("JPEG", "MPO"):
        image.draft("RGB", fit(image.size, longest))
    image.load()
    drawn = _drawn(image, fit(image.size, longest))
    if turn is not None:
        drawn = drawn.transpose(turn)
    files = {name: _encode(drawn, side, budget) for name, (side, budget) in SIZES.items()}
    return PhotoFiles(drawn.width, drawn.height, files)


def _measure(size: tuple[int, int]) -> None:
    if too_large(size):
        raise Refused(
            f"has more than {MOST_PIXELS // 10**6} million pixels or a side of more than"
            f" {MOST_SIDE} px: send a smaller one"
        )


def _weigh(image: Image.Image) -> None:
    """JPEG in one pass is opened small, PNG in a fraction of the limit; the rest by what it takes."""
    at_once = image.format == "WEBP" or image.info.get("progressive")
    if at_once and opening_bytes(image.size, str(image.format), _samples(image)) > MOST_OPENING:
        raise Refused("takes too much memory to open: send it as a plain JPEG, or a smaller one")


def _samples(image: Image.Image) -> float:
    """Of a JPEG, kept for each pixel: all of its layers, each as coarse as it is kept."""
    layers = [across * down for _, across, down, _ in getattr(image, "layer", ())]
    return sum(layers) / max(layers, default=1)


def _webp_size(data: bytes) -> tuple[int, int] | None:
    """Of the canvas of an extended WebP file (RFC 9649, 2.7), which alone may be a trap."""
    if data[:4] != b"RIFF" or data[8:16] != b"WEBPVP8X":
        return None
    return (
        1 + int.from_bytes(data[24:27], "little"),
        1 + int.from_bytes(data[27:30], "little"),
    )


def _drawn(image: Image.Image, size: tuple[int, int]) -> Image.Image:
    """The picture brought to `size`: a large one strip by strip, so that no copy of it is made."""
    step = max(image.size) // max(size)
    if step > 1:
        sheet = Image.new("RGB", tuple(-(-side // step) for side in image.size))
        for top in range(0, image.height, 64 * step):
            low = min(image.height, top + 64 * step)
            strip = _on_paper(image.crop((0, top, image.width, low)))
            sheet.paste(strip.reduce(step), (0, top // step))
    else:
        sheet = _on_paper(image)
    return sheet.resize(size, Image.Resampling.LANCZOS)


def _on_paper(image: Image.Image) -> Image.Image:
    """On a new white sheet in 8-bit RGB, so that nothing but the pixels comes along."""
    if image.mode.startswith("I"):  # 16 bits a pixel
        image = image.point(lambda value: value * (1 / 256)).convert("L")
    if image.mode in ("LA", "La", "PA", "RGBa") or "transparency" in image.info:
        image = image.convert("RGBA")
    if image.mode not in ("RGB", "RGBA", "L"):
        image = image.convert("RGB")
    sheet = Image.new("RGB", image.size, "white")
    sheet.paste(image, mask=image.getchannel("A") if image.mode == "RGBA" else None)
    return sheet


def _encode(drawn: Image.Image, longest: int, budget: int) -> bytes:
    """As the best JPEG within `budget` bytes: coarser first, then smaller."""
    while True:
        size = fit(drawn.size, longest)
        scaled = drawn if size == drawn.size else drawn.resize(size, Image.Resampling.LANCZOS)
        for quality in (82, 72, 60, 48, 36):
            out = BytesIO()
            scaled.save(out, "JPEG", quality=quality, optimize=True)
            if out.tell() <= budget:
                return out.getvalue()
        longest = longest * 4 // 5
