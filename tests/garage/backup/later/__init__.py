"""Migrations of a version to come: the garage's own, and one more."""

from pathlib import Path

from garage import migrations

__path__ = [*migrations.__path__, str(Path(__file__).parent)]
