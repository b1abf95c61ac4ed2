"""Pictures that are traps: other formats, bombs, films; each refused in a sentence, cheaply."""

import json
import subprocess
import sys

import pytest
from PIL import Image

from garage.actions.refused import Refused
from garage.pictures import read_picture
from tests.house.places import ROOT
from tests.pictures import corners, encoded, hollow_png, hollow_webp

SCRIPTED = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
EPS = b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\n%%EndComments\n%%EOF\n"


@pytest.mark.parametrize(
    "data",
    [SCRIPTED, b"<html><script>alert(1)</script>", b"<?php system('id'); ?>", b"%PDF-1.7\n", EPS,
     b"SIMPLE  =                    T", b"8BPS\x00\x01" + bytes(40), b"\0" * 5000],
    ids=["svg", "html", "php", "pdf", "eps", "fits", "psd", "zeros"],
)  # fmt: skip
def test_what_is_no_picture_is_refused_by_its_content(data):
    with pytest.raises(Refused, match="is not a JPEG, PNG or WebP picture"):
        read_picture(data)


@pytest.mark.parametrize("form", ["TIFF", "GIF", "BMP", "ICO", "AVIF", "TGA", "PPM", "JPEG2000"])
def test_other_formats_are_refused_though_they_are_pictures(form):
    data = encoded(corners(), form)
    with pytest.raises(Refused, match="is not a JPEG, PNG or WebP picture"):
        read_picture(data)


@pytest.mark.parametrize("form", ["PNG", "WEBP", "GIF"])
def test_films_are_refused(form):
    shots = [Image.new("RGB", (16, 16), (n % 256, 0, n // 3)) for n in range(60)]
    data = encoded(shots[0], form, save_all=True, append_images=shots[1:])
    with pytest.raises(Refused, match=r"moves: send one picture|is not a JPEG"):
        read_picture(data)


def test_a_phones_second_picture_is_left_behind():
    data = encoded(corners(), "MPO", save_all=True, append_images=[Image.new("RGB", (64, 48))])
    picture = read_picture(data)
    assert (picture.width, picture.height) == (64, 48)


def test_a_picture_of_endless_passes_is_refused():
    whole = encoded(corners(), "JPEG", progressive=True)
    scan = whole[whole.index(b"\xff\xda") : -2]
    with pytest.raises(Refused, match="broken"):
        read_picture(whole[:-2] + scan * 200 + whole[-2:])


def test_a_larger_file_than_may_be_sent_is_refused():
    with pytest.raises(Refused, match="is larger than 12 MB"):
        read_picture(bytes(12 * 1024**2 + 1))


@pytest.mark.parametrize("side", [13_000, 20_000, 60_000])
def test_a_bomb_is_refused_by_its_size_alone(side):
    with pytest.raises(Refused, match="has more than 40 million pixels or a side of more"):
        read_picture(hollow_png(side, side))


@pytest.mark.parametrize("size", [(12_001, 1), (6_400, 6_400)])
def test_the_limits_are_of_a_side_and_of_the_whole(size):
    with pytest.raises(Refused, match="a side of more than 12000 px"):
        read_picture(hollow_png(*size))
    with pytest.raises(Refused, match="a side of more than 12000 px"):
        read_picture(hollow_webp(*size))


def test_what_takes_much_memory_to_open_is_refused_and_half_of_it_is_not():
    """WebP and JPEG of several passes cannot be opened small: 16 bytes a pixel, 2 for every sample."""
    said = "takes too much memory to open: send it as a plain JPEG"
    many = {"JPEG": {"progressive": True, "quality": 30}}
    for form, mode, size, fine in [
        ("WEBP", "RGB", (4200, 3000), (4096, 3000)),
        ("JPEG", "CMYK", (5900, 4300), (5800, 4300)),
    ]:
        how = many.get(form, {})
        with pytest.raises(Refused, match=said):
            read_picture(encoded(Image.new(mode, size), form, **how))
        assert read_picture(encoded(Image.new(mode, fine), form, **how)).width == 1600
    whole = encoded(Image.new("RGB", (8000, 5000)), "JPEG", progressive=True)
    assert read_picture(whole).width == 1600


MEMORY = """
import json, resource, sys
from garage.actions.refused import Refused
from garage.pictures import read_picture
from tests.pictures import hollow_png, hollow_webp
from PIL import PngImagePlugin, WebPImagePlugin

bombs = [hollow_png(side, side) for side in (13_000, 20_000, 60_000)]
bombs.append(hollow_webp(16_383, 16_383))
most = lambda: resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
before, said = most(), []
for bomb in bombs:
    try:
        read_picture(bomb)
    except Refused as refused:
        said.append(str(refused))
print(json.dumps([most() - before, said]))
"""


def test_bombs_take_no_memory():
    ran = subprocess.run(  # noqa: S603 (our own interpreter, our own words)
        [sys.executable, "-c", MEMORY], cwd=ROOT, capture_output=True, text=True, check=True
    )
    kilobytes, said = json.loads(ran.stdout)
    assert len(said) == 4
    assert kilobytes < 20 * 1024
