"""Makes small faults in actions, engines and access, runs the tests of the room, prints what slips through.

usage: python -m tests.mutants [--number 20] [--seed 7] [--only builds/steps] [--seconds 240]
"""

import argparse
import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.house.places import APPS, ROOT, files, shown
from tests.mutants.mutate import Mutant, mutants

LAYERS = ("actions", "engine", "access.py", "actions.py", "engine.py")
# Rooms whose tests stand with those of another, which draws their pages.
WITH = {"builds/steps": "builds/jobs", "builds/work": "builds/jobs"}


def sources(only: str) -> list[Path]:
    """Files of the layers that decide."""
    every = [file for file in files("*.py", *APPS) if any(part in LAYERS for part in file.parts)]
    return [file for file in every if shown(file).startswith(only) and file.stat().st_size]


def room_of(file: Path) -> str:
    parts = file.relative_to(ROOT).parts
    return "/".join(parts[:2]) if parts[0] == "builds" else parts[0]


def tests_of(file: Path) -> list[str]:
    """The room's own tests, and every other plain test that names the module; no browser, no paper."""
    room = room_of(file)
    folders = [folder for name in (room, WITH.get(room)) if name and (folder := ROOT / "tests" / name).is_dir()]
    module = ".".join(file.relative_to(ROOT).with_suffix("").parts)
    naming = [
        test
        for root in ("builds", "garage", "parts", "property", "published")
        for test in (ROOT / "tests" / root).rglob("test_*.py")
        if module in test.read_text() and not any(folder in test.parents for folder in folders)
    ]
    return [shown(path) for path in (*folders, *naming)]


def drawn(number: int, seed: int, only: str) -> list[tuple[Path, Mutant]]:
    """So many faults, each from another file as long as there are others: the same for the same seed."""
    chance = random.Random(seed)
    places = sources(only)
    chance.shuffle(places)
    found = []
    for file in places:
        if len(found) == number:
            break
        if faults := list(mutants(file.read_text())):
            found.append((file, chance.choice(faults)))
    return found


def slips(tree: Path, file: Path, mutant: Mutant, seconds: int) -> bool:
    """Whether all tests pass though the fault is there; tests that no longer end have noticed it."""
    place = tree / file.relative_to(ROOT)
    whole = place.read_text()
    place.write_text(mutant.source)
    run = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests_of(file)]
    try:
        ran = subprocess.run(run, cwd=tree, capture_output=True, timeout=seconds, check=False)  # noqa: S603 (our words)
    except subprocess.TimeoutExpired:
        return False
    finally:
        place.write_text(whole)
    if ran.returncode not in (0, 1, 2):  # passed, failed, stopped at once: else pytest was not run as meant
        raise SystemExit(ran.stdout.decode())
    return ran.returncode == 0


def main() -> None:
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("--number", type=int, default=20)
    ask.add_argument("--seed", type=int, default=7)
    ask.add_argument("--only", default="")
    ask.add_argument("--seconds", type=int, default=240)
    told = ask.parse_args()
    faults = drawn(told.number, told.seed, told.only)
    noticed = 0
    with tempfile.TemporaryDirectory() as place:
        tree = Path(place) / "tree"
        shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns(".venv", ".git", "data", "__pycache__", ".*_cache"))
        for number, (file, mutant) in enumerate(faults, 1):
            slipped = slips(tree, file, mutant, told.seconds)
            noticed += not slipped
            word = "SLIPPED" if slipped else "noticed"
            words = f"{mutant.before.splitlines()[0][:70]}  ->  {mutant.after[:70]}"
            print(f"{number}/{len(faults)} {word} {shown(file)}:{mutant.line}  {words}", flush=True)
    print(f"{noticed} of {len(faults)} noticed (seed {told.seed}); what slipped either changes nothing or lacks a test")


if __name__ == "__main__":
    main()
