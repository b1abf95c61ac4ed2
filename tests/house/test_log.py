"""Where the log goes: all of it to the terminal, or to a file, and then warnings alone are told there."""

import json
import subprocess
import sys

import pytest

from tests.house.places import ROOT

SAYS = """
import logging, django
django.setup()
logging.getLogger("garage.security").info("link made")
logging.getLogger("garage.start").info("begun")
logging.getLogger("builds.plan").warning("slow")
"""


def said(line):
    """Of a line of JSON: all of them have what all have in common."""
    told = json.loads(line)
    assert {"at", "level", "log", "process"} < told.keys()
    return told["said"]


@pytest.mark.parametrize("kept", [False, True])
def test_a_log_with_a_file_of_its_own_leaves_the_terminal_to_people(tmp_path, kept):
    file = tmp_path / "garage.log"
    surroundings = {"DJANGO_SETTINGS_MODULE": "garage.settings", "DATA_DIR": str(tmp_path)}
    surroundings |= {"LOG_FILE": str(file)} if kept else {}
    surroundings |= {} if kept else {"LOG_JSON": "on"}
    told = {"cwd": ROOT, "env": surroundings, "capture_output": True, "text": True, "check": True}
    ran = subprocess.run([sys.executable, "-c", SAYS], **told)  # noqa: S603 (our words)
    logged = file.read_text() if kept else ran.stderr
    assert [said(line) for line in logged.splitlines()] == ["link made", "begun", "slow"]
    assert "slow" in ran.stderr and ("link made" in ran.stderr) is not kept
