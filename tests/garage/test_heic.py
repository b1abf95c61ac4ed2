"""Photos as many phones keep them: read where the extra is there, held to what holds for others, else said in words."""

from io import BytesIO

import pytest
from PIL import Image

from garage import pictures
from garage.actions.refused import Refused
from garage.pictures import read_picture
from tests.pictures import corners, encoded


def with_exif(form, orientation):
    exif = Image.Exif()
    exif[0x0112], exif[0x010F] = orientation, "Somebody's camera"
    return encoded(corners(), form, exif=exif.tobytes())


@pytest.fixture
def heif():
    pytest.importorskip("pillow_heif", reason="an extra")


@pytest.mark.parametrize("orientation", [1, 3, 6, 8])
def test_it_is_upright_small_and_hides_nothing(heif, orientation):
    kept, same = (read_picture(with_exif(form, orientation)) for form in ("HEIF", "JPEG"))
    assert (kept.width, kept.height) == (same.width, same.height)
    shown, meant = (Image.open(BytesIO(one.files["large"])) for one in (kept, same))
    assert not shown.getexif() and "exif" not in shown.info and shown.format == "JPEG"
    for spot in ((5, 5), (shown.width - 6, 5), (5, shown.height - 6)):
        assert all(abs(a - b) < 60 for a, b in zip(shown.getpixel(spot), meant.getpixel(spot), strict=True))


def test_its_traps_are_those_of_the_others(heif):
    with pytest.raises(Refused, match="a side of more than 12000 px"):
        read_picture(encoded(Image.new("RGB", (12_064, 64)), "HEIF"))
    film = encoded(corners(), "HEIF", save_all=True, append_images=[Image.new("RGB", (64, 48))])
    with pytest.raises(Refused, match="moves: send one picture"):
        read_picture(film)
    for broken in (film[:200], b"\0\0\0\x1cftypheic" + bytes(400)):
        with pytest.raises(Refused, match="or it is broken"):
            read_picture(broken)


def test_without_the_extra_it_is_said_what_to_do_whatever_its_name(monkeypatch):
    monkeypatch.setattr(pictures, "READS_HEIC", False)
    for brand in (b"heic", b"mif1"):
        with pytest.raises(Refused, match="set the camera to JPEG or to “most compatible”, or send it as a JPEG"):
            read_picture(b"\0\0\0\x1cftyp" + brand + bytes(400))
