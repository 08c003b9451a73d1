"""F55: the primary dies and its standby, seconds behind, is promoted. The server must notice by itself (S11)."""

from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from tests.live.cluster import Cluster, until
from tests.live.conftest import Home, new_home
from tests.live.server import Hosted

NAME = "book"


@dataclass
class Pair:
    """A primary and a standby that follows it asynchronously; the address names both, as libpq allows."""

    primary: Cluster
    standby: Cluster

    @property
    def url(self) -> str:
        """Whichever of the two takes writes (libpq, 34.1.1.3 "Specifying Multiple Hosts")."""
        hosts = f"{self.primary.folder},{self.standby.folder}"
        ports = f"{self.primary.port},{self.standby.port}"
        return f"postgresql://keeper@/{NAME}?host={hosts}&port={ports}&target_session_attrs=read-write"

    def in_step(self) -> bool:
        """Has the standby written down all that the primary has?"""
        ((there,),) = self.primary.ask("SELECT pg_current_wal_lsn()::text")
        return self.standby.ask("SELECT pg_last_wal_replay_lsn() >= %s::pg_lsn", [there]) == [(True,)]

    def part(self) -> None:
        """Cut the line between them: what the primary takes from now on, it alone has."""
        self.standby.ask("ALTER SYSTEM SET primary_conninfo = ''")
        self.standby.ask("SELECT pg_reload_conf()")
        until(lambda: self.primary.ask("SELECT count(*) FROM pg_stat_replication") == [(0,)], "the line is cut")


@pytest.fixture
def pair() -> Iterator[Pair]:
    primary = Cluster().start()
    primary.create(NAME)
    standby = Cluster(primary).start()
    yield Pair(primary, standby)
    standby.close()
    primary.close()


@pytest.fixture
def home(pair: Pair) -> Iterator[Home]:
    server = Hosted(pair.url)
    server.start()
    yield new_home(server)
    server.close()


def test_f55_s11_the_last_seconds_lost_in_a_failover_are_refilled_by_the_phones(home: Home, pair: Pair) -> None:
    """The server runs on throughout; nobody tells it anything."""
    mine, theirs = home.phone(), home.phone()
    mine.write_through(6)
    theirs.write_through(6)
    until(pair.in_step, "the standby is in step")
    pair.part()
    mine.write_through(4)
    theirs.write_through(3)
    lost = set(home.history.acknowledged)
    pair.primary.kill()
    pair.standby.promote()
    late = home.phone()
    late.sync_through()
    assert len(late.all_of("entry")) == 12
    assert len(lost) == 19
    home.check()
    assert (mine.refills, theirs.refills) == (1, 1)
    assert len(late.all_of("entry")) == 19


def test_f55_a_primary_that_comes_back_by_itself_keeps_everything_and_its_epoch(home: Home, pair: Pair) -> None:
    """No failover: the same server after a crash. What was acknowledged is there; nobody refills for nothing."""
    phone = home.phone()
    phone.write_through(5)
    pair.primary.kill()
    phone.note("While it was down")
    with pytest.raises(phone.Later):
        phone.post(phone.request())
    pair.primary.start()
    home.check()
    assert phone.refills == 0
