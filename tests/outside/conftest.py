"""Scenes that several tests look at are made once."""

import pytest
import scenes

# Seconds. However slow or busy the machine, only what hangs takes so long.
PATIENCE = 1200


@pytest.fixture(scope="session")
def boxes():
    return scenes.boxes(240)


@pytest.fixture(scope="session")
def free_assemblies():
    return scenes.free_assemblies(200)
