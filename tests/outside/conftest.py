"""Scenes that several tests look at are made once."""

import pytest
import scenes


@pytest.fixture(scope="session")
def boxes():
    return scenes.boxes(240)


@pytest.fixture(scope="session")
def free_assemblies():
    return scenes.free_assemblies(200)
