"""Fixtures that every folder of tests may use."""

from pathlib import Path

import pytest

from lawn import build


@pytest.fixture(scope="session")
def built_frontend() -> Path:
    """The built phone app: made once when stale, by the same steps as `manage.py up`.

    Parallel workers wait for one another at a file lock, so it is built once for all of them.
    """
    build.ensure_built(lambda line: None)
    return build.DIST


@pytest.fixture(scope="session")
def node_modules() -> Path:
    """The front end's folder with its Node modules installed."""
    build.ensure_modules(lambda line: None)
    return build.FRONTEND
