"""Large pictures are opened elsewhere, with the same result and the same words."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from garage import large_pictures
from garage.actions.refused import Refused
from garage.large_pictures import opened
from garage.pictures import NOT_ONE, read_picture, takes_much
from tests.pictures import corners, encoded, hollow_png

ROOT = Path(__file__).resolve().parents[2]
LARGE = (3001, 2000)  # one row more than what the server opens itself


def large(form="PNG", **how):
    return encoded(corners(*LARGE), form, **how)


@pytest.mark.parametrize(
    ("data", "much"),
    [
        (large(), True),
        (encoded(corners(3000, 2000), "PNG"), False),
        (large("JPEG", progressive=True), True),
        (large("JPEG"), False),
        (encoded(corners(), "WEBP"), True),
        (b"no picture at all", False),
        (hollow_png(13_000, 13_000), True),
    ],
)
def test_what_cannot_be_opened_small_takes_much(data, much):
    assert takes_much(data) is much


@pytest.mark.parametrize("data", [large(), large("JPEG", progressive=True), encoded(corners(), "WEBP")])
def test_a_large_picture_is_as_if_it_were_read_here(data):
    assert opened(data) == read_picture(data)


def test_what_is_refused_elsewhere_is_said_in_the_same_words():
    data = large(append_images=[Image.new("RGB", LARGE)], save_all=True)
    with pytest.raises(Refused, match="moves: send one picture of it"):
        opened(data)


def test_a_picture_that_breaks_its_process_or_takes_too_long_is_refused(monkeypatch):
    monkeypatch.setattr(large_pictures, "LONGEST", 0.001)
    with pytest.raises(Refused, match=NOT_ONE):
        opened(large())
    monkeypatch.setattr(large_pictures.sys, "executable", "/bin/false")
    monkeypatch.setattr(large_pictures, "LONGEST", 60.0)
    with pytest.raises(Refused, match=NOT_ONE):
        opened(large())


GROWS = """
import json, resource, sys
from pathlib import Path
from garage.large_pictures import opened
most = lambda whose: resource.getrusage(whose).ru_maxrss / 1024
before = most(resource.RUSAGE_SELF)
opened(Path(sys.argv[1]).read_bytes())
print(json.dumps([most(resource.RUSAGE_SELF) - before, most(resource.RUSAGE_CHILDREN)]))
"""


def test_the_memory_is_that_of_the_other_process(tmp_path):
    """40 million pixels in several passes, 120 MB of samples: this process grows by what it sends and is answered."""
    sent = tmp_path / "large.jpg"
    sent.write_bytes(encoded(Image.new("RGB", (8000, 5000), "tan"), "JPEG", progressive=True))
    ran = subprocess.run(  # noqa: S603 (our own interpreter, our own words)
        [sys.executable, "-c", GROWS, sent], cwd=ROOT, capture_output=True, text=True, check=True
    )
    here, there = json.loads(ran.stdout)
    assert here < 20, ran.stdout
    assert 100 < there < 250, ran.stdout
