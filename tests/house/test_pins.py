"""How pins are moved: all that say a version, together, and never beyond what is held."""

import subprocess

import pytest

from tests import pins


def test_what_may_be_taken_is_the_pin_or_later_and_below_what_is_held():
    text = "-r ../requirements.txt\nDjango==5.2.19\npsycopg[binary]==3.3.9\n# a note==1\n"
    assert pins.wanted(text) == ["Django>=5.2.19,<5.3", "psycopg[binary]>=3.3.9"]


def test_every_pin_moves_wherever_it_is_said():
    newest = {"django": "5.2.21", "psycopg": "3.4", "factory-boy": "4.0"}
    text = '`pip install "psycopg[binary]==3.3.9"`\nDjango==5.2.19\nfactory_boy==3.3.3\nPillow==13.0.0\n'
    then = '`pip install "psycopg[binary]==3.4"`\nDjango==5.2.21\nfactory_boy==4.0\nPillow==13.0.0\n'
    assert pins.moved(text, newest) == then


@pytest.fixture
def tree(tmp_path, monkeypatch):
    monkeypatch.setattr(pins, "ROOT", tmp_path)
    monkeypatch.setattr(pins, "KEPT", tmp_path / ".venv/pins")
    for name in (*pins.REQUIREMENTS, *pins.SAID):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("psycopg[binary]==3.3.9\n")
    return lambda: {(tmp_path / name).read_text() for name in (*pins.REQUIREMENTS, *pins.SAID)}


def test_what_moved_is_told_and_goes_back(tree, monkeypatch, capsys):
    monkeypatch.setattr(pins, "newest_of", lambda words: {"psycopg": "3.4"})
    assert pins.move() == 0 and tree() == {"psycopg[binary]==3.4\n"}
    assert "psycopg 3.3.9 → 3.4" in capsys.readouterr().out
    assert pins.move() == 3 and "newest version that fits" in capsys.readouterr().out
    assert pins.back() == 0 and tree() == {"psycopg[binary]==3.3.9\n"}


def test_without_an_index_nothing_is_moved_and_that_is_said(tree, monkeypatch, capsys):
    def away(words):
        raise subprocess.CalledProcessError(1, "pip", stderr="WARNING: once more\nERROR: no route to it\n")

    monkeypatch.setattr(pins, "newest_of", away)
    assert pins.move() == 1 and tree() == {"psycopg[binary]==3.3.9\n"}
    said = capsys.readouterr().out
    assert "could not be read" in said and "ERROR: no route to it" in said
