"""The secret key of a first start: one for all processes, whole, and for its owner alone."""

import stat
import subprocess
import sys
from pathlib import Path

import pytest
from django.core.exceptions import ImproperlyConfigured

from garage import env
from tests.house.places import ROOT

ASK = "import sys; from pathlib import Path; from garage import env; print(env.secret_key(Path(sys.argv[1])))"


@pytest.fixture(autouse=True)
def none_said(monkeypatch):
    monkeypatch.delenv("SECRET_KEY", raising=False)


def test_processes_that_start_together_share_one_key(tmp_path):
    place = tmp_path / "data"
    ask = [sys.executable, "-c", ASK, str(place)]
    begun = [
        subprocess.Popen(ask, cwd=ROOT, stdout=subprocess.PIPE, text=True)  # noqa: S603 (our own words)
        for _ in range(6)
    ]
    said = {process.communicate(timeout=60)[0].strip() for process in begun}
    assert said == {(place / "secret.key").read_text()}
    assert [file.name for file in place.iterdir()] == ["secret.key"]


def test_another_that_was_first_is_believed(tmp_path, monkeypatch):
    """Between the look and the making somebody else makes it."""
    first, link = "f" * 60, env.os.link

    def late(beside, file):
        file.write_text(first)
        link(beside, file)

    monkeypatch.setattr(env.os, "link", late)
    assert env.secret_key(tmp_path) == first
    assert [file.name for file in tmp_path.iterdir()] == ["secret.key"]


def test_nobody_reads_half_a_key(tmp_path, monkeypatch):
    """The file has its name only once the key is in it."""
    link, seen = env.os.link, []

    def looked(beside, file):
        seen.append((file.exists(), len(Path(beside).read_text())))
        link(beside, file)

    monkeypatch.setattr(env.os, "link", looked)
    key = env.secret_key(tmp_path)
    assert seen == [(False, len(key))]


def test_a_disk_without_links_has_its_key_too(tmp_path, monkeypatch):
    def refuse(beside, file):
        raise PermissionError

    monkeypatch.setattr(env.os, "link", refuse)
    key = env.secret_key(tmp_path)
    assert env.secret_key(tmp_path) == key
    assert [file.name for file in tmp_path.iterdir()] == ["secret.key"]


def test_only_its_owner_reads_it(tmp_path):
    env.secret_key(tmp_path)
    assert stat.S_IMODE((tmp_path / "secret.key").stat().st_mode) == 0o600


@pytest.mark.parametrize(("length", "fine"), [(49, False), (50, True)])
def test_a_short_key_is_refused(tmp_path, monkeypatch, length, fine):
    monkeypatch.setenv("SECRET_KEY", "k" * length)
    if fine:
        assert env.secret_key(tmp_path) == "k" * length
    else:
        with pytest.raises(ImproperlyConfigured, match="too weak"):
            env.secret_key(tmp_path)
