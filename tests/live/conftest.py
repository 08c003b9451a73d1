"""A PostgreSQL cluster for the run, and the hosted server on each database."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from uuid import uuid4

import pytest

from tests.live.cluster import Cluster
from tests.live.history import History
from tests.live.phones import KeepingPhone, check_alike
from tests.live.server import Hosted
from tests.sync.live import ANSWER_S, Guest

DATABASES = ("sqlite", "postgresql")


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    made = Cluster().start()
    yield made
    made.close()


@pytest.fixture(scope="session")
def laid_out(cluster: Cluster) -> str:
    """The name of a database with the tables and nothing in them: to copy it is quicker than all the migrations."""
    cluster.create("laid_out")
    Hosted(cluster.url("laid_out")).close()
    return "laid_out"


@pytest.fixture(scope="package", params=DATABASES)
def hosted(request: pytest.FixtureRequest) -> Iterator[Hosted]:
    """A running server with two workers, on SQLite and then on PostgreSQL."""
    server = Hosted(new_database(request) if request.param == "postgresql" else "")
    server.start()
    yield server
    server.close()


def new_database(request: pytest.FixtureRequest, options: str = "") -> str:
    """The address of a new database in the run's cluster, with the tables and nothing in them."""
    cluster: Cluster = request.getfixturevalue("cluster")
    name = f"book{uuid4().hex[:8]}"
    cluster.create(name, like=request.getfixturevalue("laid_out"))
    return cluster.url(name, options)


@dataclass
class Home:
    """A household on a server, the phones of its two members, and what they were promised."""

    server: Hosted
    keeper: Guest
    member: Guest
    history: History = field(default_factory=History)
    phones: list[KeepingPhone] = field(default_factory=list)

    @property
    def household(self) -> str:
        """The household's id."""
        return self.keeper.household

    def phone(self, timeout_s: float = ANSWER_S) -> KeepingPhone:
        """One more phone, of each member in turn."""
        guest = (self.keeper, self.member)[len(self.phones) % 2]
        self.phones.append(KeepingPhone(guest, self.history, f"phone {len(self.phones)}", timeout_s))
        return self.phones[-1]

    def check(self) -> None:
        """Everything saved is in the book once and in order, and all phones hold the same."""
        for phone in self.phones * 2:
            phone.sync_through()
        self.history.check_whole(self.server, self.household)
        check_alike(self.phones)


def new_home(server: Hosted) -> Home:
    """Two people of a new household."""
    keeper = Guest(server.url).sign_up(f"{uuid4().hex}@example.org")
    return Home(server, keeper, Guest(server.url).join(keeper, f"{uuid4().hex}@example.org"))


@pytest.fixture
def home(hosted: Hosted) -> Home:
    hosted.wait_whole()  # the test before may have killed a worker
    return new_home(hosted)
