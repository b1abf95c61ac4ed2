"""Of the car that is fit: whose garage it is in, its entry, and the car."""

import pytest


@pytest.fixture
def cast(moth):
    return moth[0]


@pytest.fixture
def entry(moth):
    return moth[1]


@pytest.fixture
def car(entry):
    return entry.vehicle
