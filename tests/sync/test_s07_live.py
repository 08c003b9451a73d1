"""S7, S12 and their faults on the real server: several phones push and pull at the same moment."""

import sqlite3
import threading
import uuid
from collections.abc import Iterator
from contextlib import closing
from functools import partial

import pytest

from tests.sync.live import Guest, LiveServer, at_once
from tests.sync.phone import Phone

ZONE = "0190aaaa-0000-7000-8000-000000000001"


@pytest.fixture(scope="module")
def server() -> Iterator[LiveServer]:
    live = LiveServer()
    live.start()
    yield live
    live.close()


@pytest.fixture
def keeper(server: LiveServer) -> Guest:
    return Guest(server.url).sign_up(f"{uuid.uuid4().hex}@example.org")


@pytest.fixture
def member(server: LiveServer, keeper: Guest) -> Guest:
    return Guest(server.url).join(keeper, f"{uuid.uuid4().hex}@example.org")


def write_all(phone: Phone, count: int) -> list[str]:
    """Log and push entries one round trip at a time; return their ids."""
    ids = []
    for number in range(count):
        ids.append(phone.log("observation", text=f"Seen {number}"))
        phone.take(phone.post(phone.request()))
    return ids


def test_s07_f07_p05_readers_beside_writers_miss_no_change(keeper: Guest, member: Guest) -> None:
    """Each reader only ever moves its cursor on. A number committed late behind it would be lost for good."""
    writers = [guest.phone() for guest in (keeper, member, keeper, member)]
    readers = [guest.phone() for guest in (keeper, member)]
    done = threading.Event()

    def read(phone: Phone) -> list[str]:
        while not done.is_set():
            phone.take(phone.post(phone.request(limit=3)))
        return []

    def write() -> list[str]:
        try:
            written = at_once([partial(write_all, phone, 15) for phone in writers])
            return [entry for ids in written for entry in ids]
        finally:
            done.set()

    _, _, ids = at_once([lambda: read(readers[0]), lambda: read(readers[1]), write])
    assert len(set(ids)) == 60
    for reader in readers:
        reader.sync()
        assert {f"entry:{entry}" for entry in ids} <= set(reader.records)
        assert reader.digest == reader.answer["digest"]


def test_s08_f06_the_same_push_twice_at_once_changes_the_book_once(keeper: Guest) -> None:
    phone = keeper.phone()
    for number in range(20):
        phone.log("observation", text=f"Seen {number}")
    request = phone.request()
    first, second = at_once([lambda: keeper.phone().post(request), lambda: keeper.phone().post(request)])
    verdicts = [{result["s"] for result in answer["results"]} for answer in (first, second)]
    assert verdicts in ([{"applied"}, {"duplicate"}], [{"duplicate"}, {"applied"}])
    by_op = [{result["op"]: result["seq"] for result in answer["results"]} for answer in (first, second)]
    assert by_op[0] == by_op[1]
    assert first["acked_dseq"] == second["acked_dseq"] == 20


def test_p04_two_phones_writing_at_once_end_alike_by_digest(keeper: Guest, member: Guest) -> None:
    mine, theirs = keeper.phone(), member.phone()
    mine.write("zone", ZONE, name={"name": "Verge"})
    mine.sync()
    theirs.sync()

    def work(phone: Phone, text: str) -> None:
        for number in range(12):
            phone.write("zone", ZONE, name={"name": f"{text} {number}"})
            phone.log("mow", zone_ids=[ZONE])
            phone.take(phone.post(phone.request()))

    at_once([lambda: work(mine, "Mine"), lambda: work(theirs, "Theirs")])
    for phone in (mine, theirs, mine, theirs):
        phone.sync()
    assert mine.records == theirs.records
    assert mine.digest == theirs.digest == mine.answer["digest"] == theirs.answer["digest"]
    assert len(mine.all_of("entry")) == 24
    # P7: of all names written, each stands, was built upon, or is kept among the conflicts
    assert mine.see("zone", ZONE, "name")["name"] in {f"{text} 11" for text in ("Mine", "Theirs")}


def test_s13_households_pushing_at_once_keep_apart(server: LiveServer, keeper: Guest) -> None:
    other = Guest(server.url).sign_up(f"{uuid.uuid4().hex}@example.org")
    mine, theirs = keeper.phone(), other.phone()
    ours, others = at_once([lambda: write_all(mine, 10), lambda: write_all(theirs, 10)])
    mine.sync()
    theirs.sync()
    assert {row["id"] for row in mine.all_of("entry")} == set(ours)
    assert {row["id"] for row in theirs.all_of("entry")} == set(others)


def test_an_invitation_used_by_two_at_once_lets_one_in(server: LiveServer, keeper: Guest) -> None:
    link = keeper.ask(f"households/{keeper.household}/invitations", {})["link"]

    def join() -> int:
        body = {"name": "Kim", "email": f"{uuid.uuid4().hex}@example.org", "password": "four wet spaniels"}
        return Guest(server.url).http.post("accounts/join", json={**body, "token": link.rsplit("/", 1)[1]}).status_code

    assert sorted(at_once([join, join, join])) == [200, 404, 404]
    phone = keeper.phone()
    phone.sync()
    assert len(phone.all_of("member")) == 2


@pytest.fixture
def file(server: LiveServer) -> str:
    """The address of the server's SQLite file."""
    found = list(server.data.glob("*.sqlite3"))
    assert len(found) == 1
    return str(found[0])


def test_s12_f08_f54_a_pull_does_not_wait_for_a_writer_and_a_push_does(keeper: Guest, member: Guest, file: str) -> None:
    """Another process holds SQLite's write lock. The pull is answered meanwhile; the push once it lets go."""
    reader, writer = keeper.phone(), member.phone()
    reader.sync()
    writer.sync()
    entry = writer.log("observation", text="While it was busy")
    pushed = threading.Thread(target=writer.sync)
    with closing(sqlite3.connect(file, isolation_level=None, check_same_thread=False)) as lock:
        lock.execute("BEGIN IMMEDIATE")
        pushed.start()
        assert reader.sync()["changes"] == []
        assert pushed.is_alive()
        assert f"entry:{entry}" not in reader.records
        lock.execute("ROLLBACK")
        pushed.join()
    reader.sync()
    assert f"entry:{entry}" in reader.records


def test_s12_f09_a_reader_left_open_holds_up_nobody(keeper: Guest, file: str) -> None:
    phone = keeper.phone()
    with closing(sqlite3.connect(file, isolation_level=None)) as idle:
        idle.execute("BEGIN")
        idle.execute("SELECT count(*) FROM lawn_change").fetchone()
        ids = write_all(phone, 3)
    assert {f"entry:{entry}" for entry in ids} <= set(phone.records)


def test_p01_f03_what_was_acknowledged_survives_the_server_being_killed(server: LiveServer, keeper: Guest) -> None:
    phone = keeper.phone()
    ids = write_all(phone, 5)
    server.kill()
    phone.log("observation", text="While the server was gone")
    server.start()
    late = keeper.phone()
    late.sync()
    assert {f"entry:{entry}" for entry in ids} <= set(late.records)
    assert phone.sync()["results"][0]["s"] == "applied"
