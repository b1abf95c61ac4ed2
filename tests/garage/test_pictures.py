"""Pictures: what is taken by its content, turned upright, made small, and rid of all else."""

from io import BytesIO

import pytest
from PIL import Image, ImageFile

from garage.actions.refused import Refused
from garage.engine.picture_sizes import SIZES
from garage.pictures import read_picture
from tests.pictures import corners, encoded, noise, with_metadata

COLOURS = {"red": (254, 0, 0), "blue": (0, 0, 254), "white": (255,) * 3, "black": (0,) * 3}


def drawn(picture, size="large") -> Image.Image:
    return Image.open(BytesIO(picture.files[size]))


def near(pixel, colour) -> bool:
    return all(abs(a - b) < 40 for a, b in zip(pixel, COLOURS[colour], strict=True))


def is_upright(image) -> bool:
    right, low = image.width * 3 // 4, image.height * 3 // 4
    left, high = image.width // 4, image.height // 4
    spots = {
        "red": (left, high),
        "blue": (right, high),
        "white": (left, low),
        "black": (right, low),
    }
    return all(near(image.getpixel(spot), colour) for colour, spot in spots.items())


@pytest.mark.parametrize(("form", "how"), [("JPEG", {"quality": 95}), ("PNG", {}), ("WEBP", {})])
def test_each_format_becomes_a_jpeg_with_the_same_pixels(form, how):
    picture = read_picture(encoded(corners(), form, **how))
    image = drawn(picture)
    assert (image.format, image.size) == ("JPEG", (64, 48))
    assert (picture.width, picture.height) == (64, 48)
    assert is_upright(image)


@pytest.mark.parametrize("turned", range(1, 9))
@pytest.mark.parametrize("form", ["JPEG", "WEBP", "PNG"])
def test_every_orientation_comes_out_upright_without_saying_so(form, turned):
    undo = {
        2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM, 5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }  # fmt: skip
    image, exif = corners(), Image.Exif()
    exif[0x0112] = turned
    as_held = image.transpose(undo[turned]) if turned > 1 else image
    picture = read_picture(encoded(as_held, form, exif=exif))
    assert drawn(picture).size == (64, 48)
    assert is_upright(drawn(picture))
    assert not drawn(picture).getexif()


def test_places_words_thumbnails_and_tails_are_not_kept():
    sent = with_metadata()
    secrets = (b"52.0907374", b"Exif", b"http://ns.adobe.com", b"8BIM", b"<script>", b"PK\x03\x04",
               b"<?php", b"MidThumb")  # fmt: skip
    assert all(secret in sent for secret in secrets)
    for data in read_picture(sent).files.values():
        assert not any(secret in data for secret in secrets)
        assert data.endswith(b"\xff\xd9")
        assert b"\xff\xfe" not in data[:200]  # the comment's mark


@pytest.mark.parametrize("form", ["PNG", "WEBP"])
def test_what_other_formats_say_about_themselves_is_not_kept(form):
    exif = Image.Exif()
    exif[0x010E] = "52.0907374"
    how = {"exif": exif, "icc_profile": b"52.0907374"}
    for data in read_picture(encoded(corners(), form, **how)).files.values():
        assert b"52.0907374" not in data and b"ICC_PROFILE" not in data


@pytest.mark.parametrize("side", [2000, 1000, 200])
def test_sizes_keep_their_budgets_even_for_noise(side):
    picture = read_picture(encoded(noise(side, side * 3 // 4), "JPEG", quality=90))
    for name, (longest, budget) in SIZES.items():
        assert len(picture.files[name]) <= budget
        assert max(drawn(picture, name).size) <= min(longest, side)


@pytest.mark.parametrize(
    ("mode", "form"),
    [("I;16", "PNG"), ("CMYK", "JPEG"), ("L", "JPEG"), ("1", "PNG"), ("LA", "PNG"), ("P", "PNG"),
     ("RGBA", "WEBP"), ("RGBA", "PNG")],
)  # fmt: skip
def test_unusual_pixels_are_shown_right(mode, form):
    grey = Image.new("L", (40, 30), 255)
    grey.paste(0, (0, 0, 20, 30))
    image = grey.convert("I").point(lambda value: value * 257) if mode == "I;16" else grey
    image = image.convert(mode)
    result = drawn(read_picture(encoded(image, form)))
    assert near(result.getpixel((5, 15)), "black") and near(result.getpixel((35, 15)), "white")


def test_see_through_parts_lie_on_white_paper():
    image = Image.new("RGBA", (20, 20), (255, 0, 0, 0))
    palette = Image.new("P", (20, 20), 0)
    palette.putpalette([0, 0, 0])
    for data in (encoded(image, "PNG"), encoded(palette, "PNG", transparency=0)):
        assert near(drawn(read_picture(data)).getpixel((10, 10)), "white")


@pytest.mark.parametrize(("size", "kept"), [((1, 1), (1, 1)), ((1, 12_000), (1, 1600)), ((12_000, 2), (1600, 1))])
def test_a_single_pixel_and_a_hair_are_kept(size, kept):
    picture = read_picture(encoded(Image.new("RGB", size, "red"), "PNG"))
    assert drawn(picture).size == kept


def test_a_broken_picture_is_never_made_whole():
    whole = encoded(noise(300, 200), "JPEG")
    assert ImageFile.LOAD_TRUNCATED_IMAGES is False
    for data in (whole[: len(whole) // 2], whole[:20], b"", b"\xff\xd8\xff", whole[2:]):
        with pytest.raises(Refused, match="is not a JPEG, PNG or WebP picture, or it is broken"):
            read_picture(data)


@pytest.mark.parametrize("mode", ["RGB", "RGBA", "P", "L"])
def test_a_large_one_is_put_together_again_without_a_seam(mode):
    picture = read_picture(encoded(corners(5003, 3761).convert(mode), "PNG"))
    image = drawn(picture)
    assert image.size == (1600, 1203)
    assert mode == "L" or is_upright(image)
    column = [image.getpixel((1200, y))[2] for y in range(610, 1203)]
    assert max(column) < 40
