"""Pictures for tests, drawn when they are asked for."""

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
