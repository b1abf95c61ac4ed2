"""The demo garage as every test here finds it, loaded once a module."""

import pytest

from builds.demo.actions.garage import load_demo
from tests.factories import NOW


@pytest.fixture(scope="module")
def loaded(rows_of_module):
    return load_demo(at=NOW)


@pytest.fixture
def demo(loaded, db):
    return loaded
