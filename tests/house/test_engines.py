"""The engines stand on plain Python: importing all of them loads no framework."""

import subprocess
import sys
from fnmatch import fnmatch

import pytest

from tests.house.places import APPS, ROOT, files
from tests.house.rooms import contract

SCRIPT = """
import importlib, sys
for name in sys.argv[1:]:
    importlib.import_module(name)
print(*sorted({name.split(".")[0] for name in sys.modules} & {"django", "reportlab", "PIL"}))
"""
SOURCES = contract("Engines know no framework")["source_modules"]


def modules() -> list[str]:
    return [
        ".".join(file.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        for app in APPS
        for file in files("*.py", app)
    ]


def below(source: str) -> list[str]:
    """Modules of one line of the contract, such as `builds.*.engine`."""
    depth = source.count(".") + 1
    return [name for name in modules() if fnmatch(".".join(name.split(".")[:depth]), source)]


def frameworks(*names: str) -> list[str]:
    """What a fresh Python has loaded of Django, ReportLab and Pillow after importing these."""
    ran = subprocess.run(  # noqa: S603 (our own interpreter, our own names)
        [sys.executable, "-c", SCRIPT, *names], capture_output=True, text=True, cwd=ROOT, check=True
    )
    return ran.stdout.split()


@pytest.mark.parametrize("source", SOURCES)
def test_a_line_of_the_contract_names_engines_that_are_there(source):
    assert below(source), f"{source} names nothing"


def test_every_folder_called_engine_is_in_the_contract():
    held = {name for source in SOURCES for name in below(source)}
    engines = {name for name in modules() if "engine" in name.split(".")}
    assert engines and engines <= held


def test_engines_import_without_django_or_reportlab():
    assert frameworks(*sorted({name for source in SOURCES for name in below(source)})) == []


def test_what_does_load_django_is_noticed():
    assert frameworks("garage.env", "garage.clock") == ["django"]
