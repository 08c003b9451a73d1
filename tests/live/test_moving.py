"""A backup moves a book to another server: from one database to the other, and from an older program's tables (S11)."""

from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest

from tests.live.conftest import DATABASES, Home, new_database, new_home
from tests.live.phones import KeepingPhone
from tests.live.server import Hosted
from tests.sync.live import Guest

ZONE = "0190aaaa-0000-7000-8000-0000000000f3"
OTHER = {"sqlite": "postgresql", "postgresql": "sqlite"}
# The tables before holes and settled parked ops, the store's mark, own sessions and sign-ins were added.
OLDER = "0003"


def _server(request: pytest.FixtureRequest, database: str) -> Hosted:
    return Hosted(new_database(request) if database == "postgresql" else "")


@pytest.fixture(params=DATABASES)
def source(request: pytest.FixtureRequest) -> Iterator[Hosted]:
    """A server of its own, on each database."""
    server = _server(request, request.param)
    server.start()
    yield server
    server.close()


@pytest.fixture
def target(request: pytest.FixtureRequest, source: Hosted) -> Iterator[Hosted]:
    """An empty server on the other database, not yet started."""
    server = _server(request, OTHER["postgresql" if source.database else "sqlite"])
    yield server
    server.close()


def _with_history(server: Hosted) -> Home:
    """A household in which two edited one name at once and one sent what no build knows."""
    home = new_home(server)
    mine, theirs = home.phone(), home.phone()
    mine.write("zone", ZONE, name={"name": "Verge"})
    mine.write_through(3)
    theirs.sync_through()
    mine.write("zone", ZONE, name={"name": "Verge, mine"})
    theirs.write("zone", ZONE, name={"name": "Verge, theirs – größer"})
    theirs.save({"t": "moon", "id": ZONE, "set": {"name": {"name": "Full"}}})
    mine.sync_through()
    theirs.write_through(2)
    mine.sync_through()
    return home


def _move(home: Home, server: Hosted) -> None:
    """The same phones and people at another server: each signs in anew, for no backup holds a session."""
    emails: dict[str, str] = dict(server.rows("SELECT name, email FROM lawn_person"))
    for guest, name in ((home.keeper, "Sam"), (home.member, "Kim")):
        guest.http = Guest(server.url).http
        guest.ask("accounts/sign-in", {"email": emails[name], "password": "four wet spaniels"})
    home.server = server
    for number, phone in enumerate(home.phones):
        _point(phone, (home.keeper, home.member)[number % 2])


def _point(phone: KeepingPhone, guest: Guest) -> None:
    phone._line = httpx.Client(base_url=guest.http.base_url, cookies=guest.http.cookies, timeout=60)


def _rows(server: Hosted) -> dict[str, list[tuple[str, ...]]]:
    """What the store keeps, read past the program: ids without hyphens, as SQLite has them."""
    statements = {
        "entries": "SELECT id FROM lawn_entry",
        "zones": "SELECT id, name FROM lawn_zone",
        "changes": "SELECT t, id, seq FROM lawn_change",
        "conflicts": "SELECT id, record_id, won FROM lawn_conflict",
        "parked": "SELECT id, op FROM lawn_parkedop",
        "people": "SELECT id, email, password FROM lawn_person",
    }
    return {
        name: sorted(tuple(str(value).replace("-", "") for value in row) for row in server.rows(statement))
        for name, statement in statements.items()
    }


def test_f22_s11_a_backup_of_one_database_is_restored_into_the_other(
    source: Hosted, target: Hosted, tmp_path: Path
) -> None:
    home = _with_history(source)
    source.manage("backup", str(tmp_path / "book.zip"))
    before = _rows(source)
    assert all(before.values())  # nothing is compared with nothing
    home.phones[1].write_through(4)  # what the backup lacks
    target.manage("restore", str(tmp_path / "book.zip"))
    assert _rows(target) == before
    target.start()
    _move(home, target)
    home.check()
    assert [phone.refills for phone in home.phones] == [1, 1]


def test_f22_s11_a_backup_of_an_older_programs_tables_is_restored_into_either_database(
    source: Hosted, target: Hosted, tmp_path: Path
) -> None:
    """The older tables come about by taking the newest migrations back; the backup is made of those."""
    home = _with_history(source)
    before = _rows(source)
    source.stop()
    source.manage("migrate", "lawn", OLDER, "--verbosity", "0")
    source.manage("backup", str(tmp_path / "older.zip"))
    target.manage("restore", str(tmp_path / "older.zip"))
    assert _rows(target) == before
    target.start()
    _move(home, target)
    home.check()
