"""`python -m tests.pins`: move every pin to the newest version that fits with the others; `--back` undoes it.

Ends with 0 where pins moved, with 3 where each is the newest already, with 1 where the index could not be read.
"""

import argparse
import json
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping

from tests.house.places import ROOT

REQUIREMENTS = ("requirements.txt", "tests/requirements.txt", "tests/benchmarks/requirements.txt", "tests/holes.txt")
# Where a pin of them is said once more.
SAID = ("README.md", "DEVELOPERS.md", "garage/deploy/Containerfile")
KEPT = ROOT / ".venv" / "pins"
# Not beyond these: 5.2 is the release of Django that is looked after for years and that Python 3.11 can run.
BELOW = {"Django": "5.3"}
PIN = re.compile(r"^([A-Za-z0-9._-]+)(\[[a-z,]+\])?==([\w.]+)", re.M)
ASIDE = {"tests/holes.txt"}  # in an environment of its own, so that it need not fit with the others


def wanted(text: str) -> list[str]:
    """What may be taken for each pin of a text: itself or a later one."""
    return [
        f"{name}{extras}>={version}" + (f",<{BELOW[name]}" if name in BELOW else "")
        for name, extras, version in PIN.findall(text)
    ]


def moved(text: str, newest: Mapping[str, str]) -> str:
    """A text with its pins at the versions of `newest`, by names as indexes spell them."""

    def pin(found: re.Match[str]) -> str:
        name, extras, version = found.groups()
        return f"{name}{extras or ''}=={newest.get(plain(name), version)}"

    return re.sub(PIN.pattern.removeprefix("^"), pin, text, flags=re.M)


def plain(name: str) -> str:
    """As the rules for names of packages compare them (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def newest_of(words: list[str]) -> dict[str, str]:
    """What pip would take of them together. Raises CalledProcessError where it finds none or reaches no index."""
    told = ("--dry-run", "--ignore-installed", "--quiet", "--disable-pip-version-check", "--report", "-")
    ran = subprocess.run(  # noqa: S603 (our own interpreter, names from our own files)
        [sys.executable, "-m", "pip", "install", *told, *words], capture_output=True, text=True, check=True
    )
    report = json.loads(ran.stdout[ran.stdout.index("{") :])
    return {plain(row["metadata"]["name"]): row["metadata"]["version"] for row in report["install"]}


def move() -> int:
    texts = {name: (ROOT / name).read_text() for name in (*REQUIREMENTS, *SAID)}
    try:
        together = [word for name in REQUIREMENTS if name not in ASIDE for word in wanted(texts[name])]
        newest = newest_of(together) | newest_of([word for name in ASIDE for word in wanted(texts[name])])
    except (subprocess.CalledProcessError, ValueError) as error:
        last = getattr(error, "stderr", "").strip().splitlines()[-1:] or [str(error)]
        print(f"The index of packages could not be read, or nothing fits: no pin was moved.\n  {last[0]}")
        return 1
    pins = {plain(name): version for text in texts.values() for name, _, version in PIN.findall(text)}
    further = {name: newest[name] for name in pins if newest.get(name, pins[name]) != pins[name]}
    if not further:
        print("Every pin is at the newest version that fits.")
        return 3
    shutil.rmtree(KEPT, ignore_errors=True)
    for name, text in texts.items():
        (KEPT / name).parent.mkdir(parents=True, exist_ok=True)
        (KEPT / name).write_text(text)
        (ROOT / name).write_text(moved(text, further))
    for name, version in sorted(further.items()):
        print(f"{name} {pins[name]} → {version}")
    return 0


def back() -> int:
    for name in (*REQUIREMENTS, *SAID):
        shutil.copyfile(KEPT / name, ROOT / name)
    print("Something failed with them: every pin is back where it was.")
    return 0


if __name__ == "__main__":
    given = argparse.ArgumentParser(description=__doc__)
    given.add_argument("--back", action="store_true", help="as they were before the last move")
    sys.exit(back() if given.parse_args().back else move())
