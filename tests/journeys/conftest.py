"""What every journey is given: a real server, phones of either browser, a household to begin with."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from tests.journeys.book import Book, start_book
from tests.journeys.browsers import SETUPS, MakePhone
from tests.journeys.phone import Phone
from tests.journeys.server import Server
from tests.lanes.engines import browsers_of


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Each journey runs once for each browser that its row in engines.py names."""
    if "make_phone" in metafunc.fixturenames:
        metafunc.parametrize("make_phone", browsers_of(metafunc.module.__name__), indirect=True, scope="session")


@pytest.fixture(scope="session")
def make_phone(request: pytest.FixtureRequest) -> Iterator[MakePhone]:
    """What one browser needs, set up once for all the phones a worker makes."""
    with SETUPS[request.param]() as make:
        yield make


@pytest.fixture(scope="session")
def shared_server(built_frontend: object) -> Iterator[Server]:
    """One server for the run; journeys keep apart by each having a household of its own."""
    server = Server()
    yield server
    server.close()


@pytest.fixture
def server(shared_server: Server) -> Iterator[Server]:
    """The server, running when the journey begins whatever the one before did to it."""
    shared_server.start()
    yield shared_server


@pytest.fixture
def book(server: Server) -> Book:
    """A household of its own, made over HTTP, with nothing in it yet."""
    return start_book(server)


@pytest.fixture
def pictures(tmp_path: Path) -> Path:
    """Where pictures of this journey go."""
    return tmp_path / "pictures"


@pytest.fixture
def lasting(request: pytest.FixtureRequest) -> bool:
    """Does this journey end its browser, or ask what that keeps? Those of lasting/ and those marked so."""
    return ".lasting." in request.module.__name__ or request.node.get_closest_marker("lasting") is not None


@pytest.fixture
def new_phone(make_phone: MakePhone, server: Server, pictures: Path, lasting: bool) -> Iterator[Callable[[], Phone]]:
    """Make phones; all are put away after the journey."""
    with ExitStack() as stack:

        def make() -> Phone:
            phone = make_phone(server.url, pictures, lasting=lasting)
            stack.callback(phone.quit)
            return phone

        yield make


@pytest.fixture
def phone(new_phone: Callable[[], Phone]) -> Phone:
    """One phone, on a blank page."""
    return new_phone()
