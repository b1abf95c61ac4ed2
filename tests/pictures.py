"""Pictures for tests, drawn when they are asked for."""

import struct
import zlib
from io import BytesIO

from PIL import Image


def as_file(data: bytes, name: str = "photo.jpg") -> BytesIO:
    file = BytesIO(data)
    file.name = name
    return file


def encoded(image: Image.Image, form: str, **how) -> bytes:
    out = BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


def corners(width: int = 64, height: int = 48) -> Image.Image:
    """Red at the top left, blue at the top right, white at the bottom left, black elsewhere."""
    image = Image.new("RGB", (width, height), "black")
    left, top = width // 2, height // 2
    image.paste("red", (0, 0, left, top))
    image.paste("blue", (left, 0, width, top))
    image.paste("white", (0, top, left, height))
    return image


def jpeg(name: str = "photo.jpg", **how) -> BytesIO:
    return as_file(encoded(corners(), "JPEG", quality=95, subsampling=0, **how), name)


def noise(width: int, height: int) -> Image.Image:
    """The hardest picture to make small."""
    return Image.effect_noise((width, height), 120).convert("RGB")


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def hollow_png(width: int, height: int) -> bytes:
    """Of one bit a pixel, all black: the file is tiny, the picture is not."""
    packer, row = zlib.compressobj(9), bytes(1 + (width + 7) // 8)
    many = max(1, 2**20 // len(row))
    rows = [packer.compress(row * min(many, height - at)) for at in range(0, height, many)]
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    data = b"".join(rows) + packer.flush()
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", data) + _chunk(b"IEND", b"")


def hollow_webp(width: int, height: int) -> bytes:
    """Two small shots on a canvas that claims to be large."""
    data = bytearray(
        encoded(Image.new("RGB", (16, 16)), "WEBP", save_all=True, lossless=True,
                append_images=[Image.new("RGB", (16, 16), "red")])
    )  # fmt: skip
    data[24:27] = (width - 1).to_bytes(3, "little")
    data[27:30] = (height - 1).to_bytes(3, "little")
    return bytes(data)


def _segment(mark: int, data: bytes) -> bytes:
    return bytes([0xFF, mark]) + struct.pack(">H", len(data) + 2) + data


def with_metadata() -> bytes:
    """A JPEG that says where it was taken in four ways, with a comment, a thumbnail and a tail."""
    exif = Image.Exif()
    exif[0x010E] = "52.0907374"
    exif.get_ifd(0x8825)[1] = "N"
    whole = encoded(corners(), "JPEG", exif=exif, comment=b"<script>alert(1)</script>")
    extra = (
        _segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>52.0907374</x:xmpmeta>")
        + _segment(0xED, b"Photoshop 3.0\x008BIM\x04\x04\0\0\0\0\0\x0c52.0907374\0\0")
        + _segment(0xE0, b"JFXX\0\x10" + b"MidThumb")
    )
    return whole[:2] + extra + whole[2:] + b"PK\x03\x04<?php system('id'); ?>"
