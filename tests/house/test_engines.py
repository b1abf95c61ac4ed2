"""The engines stand on plain Python: importing all of them loads no framework."""

import subprocess
import sys

from tests.house.places import ROOT, files

SCRIPT = """
import importlib, sys
for name in sys.argv[1:]:
    importlib.import_module(name)
print(sorted({name.split(".")[0] for name in sys.modules} & {"django", "reportlab", "PIL"}))
"""


def test_engines_import_without_django_or_reportlab():
    names = [
        ".".join(file.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")
        for app in ("garage", "parts", "builds")
        for file in files("*.py", f"{app}/engine")
    ]
    assert len(names) > 3
    ran = subprocess.run(  # noqa: S603 (our own interpreter, our own names)
        [sys.executable, "-c", SCRIPT, *names], capture_output=True, text=True, cwd=ROOT, check=True
    )
    assert ran.stdout.strip() == "[]"
