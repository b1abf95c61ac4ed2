"""A large picture is opened by a process of its own: the memory goes with it, and a file that breaks it breaks nothing.

`python -m garage.large_pictures` is that process: it reads a picture and answers with JSON.
"""

import json
import subprocess
import sys
from base64 import b64decode, b64encode
from pathlib import Path

from garage.actions.refused import Refused
from garage.pictures import NOT_ONE, PhotoFiles, read_picture, takes_much

LONGEST = 60.0
ROOT = Path(__file__).parent.parent


def opened(data: bytes) -> PhotoFiles:
    """As `read_picture`, which says what is refused; a large one elsewhere, in `LONGEST` seconds at the most."""
    return _elsewhere(data) if takes_much(data) else read_picture(data)


def _elsewhere(data: bytes) -> PhotoFiles:
    command = [sys.executable, "-m", "garage.large_pictures"]
    try:
        ran = subprocess.run(  # noqa: S603 (no shell; our own interpreter and module)
            command, input=data, stdout=subprocess.PIPE, cwd=ROOT, timeout=LONGEST, check=True
        )
    except subprocess.SubprocessError as error:
        raise Refused(NOT_ONE) from error
    told = json.loads(ran.stdout)
    if "refused" in told:
        raise Refused(told["refused"])
    return PhotoFiles(told["width"], told["height"], {name: b64decode(text) for name, text in told["files"].items()})


def _answer(data: bytes) -> dict[str, object]:
    """What `_elsewhere` is answered."""
    try:
        picture = read_picture(data)
    except Refused as refused:
        return {"refused": str(refused)}
    files = {name: b64encode(kept).decode() for name, kept in picture.files.items()}
    return {"width": picture.width, "height": picture.height, "files": files}


if __name__ == "__main__":
    json.dump(_answer(sys.stdin.buffer.read()), sys.stdout)
