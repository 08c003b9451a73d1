"""Fixtures that every folder of tests may use, and how Hypothesis runs in all of them."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from lawn.tooling import build
from tests.lanes.order import longest_first
from tests.lanes.timings import Timings

# The same examples at every run, so that a change is refused for its own faults only. Values are judged, never time: a
# loaded machine is slow without being wrong. `--hypothesis-profile=search` draws other examples each time.
settings.register_profile("house", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("search", settings.get_profile("house"), derandomize=False, print_blob=True)
settings.load_profile("house")


# One more than the cores of the machines on which every change is tried: a third of a worker's time is waiting for an
# app that rests, a browser that starts, a transaction that is held.
WORKERS = 3


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int:
    """Three workers share a run; a single file is run as it is, since starting workers would take longer.

    `-n 0` and `-n 4` on the command line are taken as given.
    """
    named = [argument for argument in config.args if not argument.startswith("-")]
    return 0 if len(named) == 1 and ".py" in named[0] else WORKERS


def pytest_addoption(parser: pytest.Parser) -> None:
    """`--timings` prints where the time went of a part of the tests too."""
    parser.addoption("--timings", action="store_true", help="print minutes a folder and the slowest tests")


def pytest_configure(config: pytest.Config) -> None:
    """Time a whole run, and any other where that is asked for; the workers' times come to the one that started them."""
    whole = config.args_source is not pytest.Config.ArgsSource.ARGS and not _narrowed(config)
    if not hasattr(config, "workerinput") and (whole or config.getoption("timings")):
        config.pluginmanager.register(Timings(whole), "timings")


def _narrowed(config: pytest.Config) -> bool:
    """Was only a part of the tests asked for, or not even to run them?"""
    return any(config.getoption(name) for name in ("keyword", "markexpr", "collectonly", "lf", "deselect"))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """What takes longest begins first."""
    longest_first(items)


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
