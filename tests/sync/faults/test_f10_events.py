"""F10: events are hints. They come when the book moves, are never needed, and stop for who is no longer a member."""

import asyncio
import json
import uuid
from collections.abc import Iterable, Iterator
from contextlib import ExitStack, contextmanager

import httpx
import pytest
from django.db import DatabaseError
from django.test import Client

from lawn.book.people import access
from lawn.book.people.access import Place
from lawn.book.sync import events
from lawn.book.sync.events import Board, Listener, TooManyStreams
from lawn.models import Member
from lawn.web import sessions
from tests.sync.conftest import House, signed_in
from tests.sync.live import Guest, LiveServer


@pytest.fixture(scope="module")
def server() -> Iterator[LiveServer]:
    live = LiveServer()
    live.start()
    yield live
    live.close()


@pytest.fixture
def keeper(server: LiveServer) -> Guest:
    server.start()
    return Guest(server.url).sign_up(f"{uuid.uuid4().hex}@example.org")


@pytest.fixture
def member(server: LiveServer, keeper: Guest) -> Guest:
    return Guest(server.url).join(keeper, f"{uuid.uuid4().hex}@example.org")


@contextmanager
def listening(guest: Guest) -> Iterator[Iterator[int]]:
    """The numbers a stream says, as they come; its comments are left out."""
    with guest.http.stream("GET", f"households/{guest.household}/events") as response:
        assert response.status_code == 200
        assert response.headers["content-type"] == "text/event-stream"
        lines = response.iter_lines()
        yield (json.loads(line.removeprefix("data: "))["seq"] for line in lines if line.startswith("data: "))


def test_f10_a_stream_says_where_the_book_stands_and_when_it_moves(keeper: Guest, member: Guest) -> None:
    mine, theirs = keeper.phone(), member.phone()
    with listening(member) as numbers:
        assert next(numbers) == theirs.sync()["head"]
        mine.log("mow")
        head = mine.sync()["head"]
        assert next(numbers) == head
    theirs.sync()
    assert len(theirs.all_of("entry")) == 1


def test_f10_a_server_that_dies_before_the_event_loses_nothing(server: LiveServer, keeper: Guest) -> None:
    """The commit is acknowledged and the server killed before its next look: the next server says the same number."""
    phone = keeper.phone()
    with listening(keeper) as numbers:
        next(numbers)
        phone.log("mow")
        head = phone.sync()["head"]
        server.kill()
        with pytest.raises(httpx.TransportError):
            list(numbers)
    server.start()
    with listening(keeper) as numbers:
        assert next(numbers) == head


def test_f10_a_household_hears_nothing_of_another(server: LiveServer, keeper: Guest) -> None:
    other = Guest(server.url).sign_up(f"{uuid.uuid4().hex}@example.org")
    mine, theirs = keeper.phone(), other.phone()
    with listening(keeper) as numbers:
        next(numbers)
        theirs.log("mow")
        theirs.log("mow")
        theirs.sync()
        mine.log("mow")
        head = mine.sync()["head"]
        assert next(numbers) == head


def test_f10_a_sixth_stream_of_one_member_is_refused_for_now(keeper: Guest, member: Guest) -> None:
    with ExitStack() as opened:
        streams = [opened.enter_context(listening(keeper)) for _ in range(events.MOST_STREAMS)]
        assert all(next(numbers) > 0 for numbers in streams)
        refused = keeper.http.get(f"households/{keeper.household}/events")
        assert (refused.status_code, refused.json()["code"]) == (429, "too_many_streams")
        assert next(opened.enter_context(listening(member))) > 0


def test_f10_streams_end_whole_when_the_server_is_told_to_stop(server: LiveServer, keeper: Guest) -> None:
    """A stream cut off in the middle would raise here: it is ended, so the server need not wait for it."""
    with listening(keeper) as numbers:
        next(numbers)
        server.stop()
        assert list(numbers) == []
    server.start()


# --- the board by itself ------------------------------------------------------------------------
HERE: Place = (uuid.UUID(int=1), uuid.UUID(int=2), "a")
THERE: Place = (uuid.UUID(int=3), uuid.UUID(int=4), "b")


class Heads:
    """What the looks find, one after the other; the last again and again."""

    def __init__(self, *found: dict[Place, int] | Exception) -> None:
        self.found, self.asked = list(found), list[set[Place]]()

    def __call__(self, places: Iterable[Place]) -> dict[Place, int]:
        self.asked.append(set(places))
        found = self.found.pop(0) if len(self.found) > 1 else self.found[0]
        if isinstance(found, Exception):
            raise found
        return found


async def told(board: Board, *listeners: Listener) -> None:
    """Wait until each of the listeners has been told something."""
    for listener in listeners:
        board.join(listener)
    for listener in listeners:
        assert await listener.moved(within_s=30)
    for listener in listeners:
        board.leave(listener)


def test_f10_one_look_serves_all_streams() -> None:
    heads = Heads({HERE: 8, THERE: 5})
    mine, also_mine, theirs = Listener(HERE, 7), Listener(HERE, 7), Listener(THERE, 4)
    asyncio.run(told(Board(0.001, heads), mine, also_mine, theirs))
    assert (mine.seq, also_mine.seq, theirs.seq) == (8, 8, 5)
    assert heads.asked[0] == {HERE, THERE}


def test_f10_a_look_that_fails_is_made_again() -> None:
    listener = Listener(HERE, 7)
    asyncio.run(told(Board(0.001, Heads(DatabaseError("gone"), {HERE: 8})), listener))
    assert (listener.seq, listener.over) == (8, False)


def test_f10_p10_who_is_no_longer_found_hears_no_more() -> None:
    mine, theirs = Listener(HERE, 7), Listener(THERE, 4)
    asyncio.run(told(Board(0.001, Heads({THERE: 5})), mine, theirs))
    assert (mine.over, theirs.over) == (True, False)


def test_f10_closing_ends_the_open_streams_and_those_that_still_come() -> None:
    async def run() -> tuple[Listener, Listener]:
        board, early, late = Board(30, Heads({})), Listener(HERE, 7), Listener(HERE, 7)
        board.join(early)
        board.close()
        board.join(late)
        return early, late

    early, late = asyncio.run(run())
    assert (early.over, late.over) == (True, True)


def test_f10_no_more_streams_of_one_member_than_five() -> None:
    async def run() -> None:
        board = Board(30, Heads({}))
        for _ in range(5):
            board.join(Listener(HERE, 7))
        board.join(Listener(THERE, 7))
        with pytest.raises(TooManyStreams):
            board.join(Listener(HERE, 7))

    asyncio.run(run())


def place_of(member: Member) -> tuple[Place, Client]:
    """Where a signed-in member looks from."""
    client = signed_in(member)
    return (member.household_id, member.id, sessions.key_hash(client.session.session_key)), client


def test_f10_p10_a_look_finds_members_by_living_sessions_only(house: House) -> None:
    (mine, _), (theirs, _), (away, away_client) = place_of(house.keeper), place_of(house.member), place_of(house.keeper)
    head = house.household.seq
    assert events.look([mine, theirs, away, HERE]) == dict.fromkeys([mine, theirs, away], head)
    access.rows(Member, house.member.household_id).filter(id=house.member.id).update(active=False)
    away_client.logout()
    assert events.look([mine, theirs, away, HERE]) == {mine: head}
