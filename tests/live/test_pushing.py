"""Many phones at one real server of several processes, and processes that die (S7, S8, F4, F6, F7, F8, F10)."""

import json
import random
import threading
from collections.abc import Callable
from functools import partial

import httpx
import pytest

from tests.live import points
from tests.live.cluster import until
from tests.live.conftest import Home
from tests.live.phones import KeepingPhone
from tests.sync.live import at_once

WRITERS = 8


def test_s07_f07_eight_writers_and_a_reader_lose_and_double_nothing(home: Home) -> None:
    """Pushes commit in whatever order the processes come to it; the reader's cursor must never pass one by."""
    writers = [home.phone() for _ in range(WRITERS)]
    reader = home.phone()
    done = threading.Event()

    def read() -> None:
        while not done.is_set():
            reader.take(reader.post(reader.request(limit=3)))

    def write() -> None:
        try:
            at_once([partial(phone.write_through, 12) for phone in writers])
        finally:
            done.set()

    at_once([read, write])
    home.check()
    assert len(reader.all_of("entry")) == WRITERS * 12


def test_s08_f06_one_push_sent_twice_at_once_to_two_processes_counts_once(home: Home) -> None:
    phone = home.phone()
    for number in range(20):
        phone.note(f"Seen {number}")
    request = phone.request()
    answers = at_once([lambda: phone.post(request)] * 4)
    assert sorted({result["s"] for result in answer["results"]}.pop() for answer in answers) == [
        "applied",
        "duplicate",
        "duplicate",
        "duplicate",
    ]
    assert len({tuple(result["seq"] for result in answer["results"]) for answer in answers}) == 1
    phone.take(answers[0])
    home.check()


@pytest.mark.parametrize("point", [points.HALF_WAY, points.BEFORE_COMMIT])
def test_p02_f10_killed_before_the_commit_nothing_of_the_push_is_there_and_it_comes_again(
    home: Home, point: str
) -> None:
    phone, late = home.phone(), home.phone()
    phone.write_through(2)
    for number in range(4):
        phone.note(f"Half sent {number}")
    home.server.die_at(point)
    with pytest.raises(phone.Later):
        phone.post(phone.request())
    assert home.server.died_at(point)
    home.history.check_kept(home.server, home.household)
    late.sync_through()
    assert len(late.all_of("entry")) == 2
    phone.sync_through()
    assert {result["s"] for result in phone.answer["results"]} == {"applied"}
    home.check()


def test_p02_f04_f10_killed_between_commit_and_answer_the_same_push_again_counts_once(home: Home) -> None:
    """The worker dies with the commit on the disk and nobody told, neither the phone nor any listener (F10)."""
    phone, other = home.phone(), home.phone()
    for number in range(4):
        phone.note(f"Sent {number}")
    home.server.die_at(points.BEFORE_ANSWER)
    with pytest.raises(phone.Later):
        phone.post(phone.request())
    assert home.server.died_at(points.BEFORE_ANSWER)
    other.sync_through()
    assert len(other.all_of("entry")) == 4  # told by the next pull, whoever answers it
    phone.sync_through()
    assert {result["s"] for result in phone.answer["results"]} == {"duplicate"}
    home.check()


def test_f10_a_listener_hears_of_a_commit_whose_process_died_before_telling(home: Home) -> None:
    """The listener may have hung on the process that died: it asks again, as browsers do, and hears the number."""
    phone = home.phone()
    phone.write_through(1)
    for number in range(4):
        phone.note(f"Sent {number}")
    target = phone.cursor + 4
    heard: list[int] = []

    def listen() -> None:
        while not heard or heard[-1] < target:
            try:
                with home.keeper.http.stream("GET", f"households/{home.household}/events") as stream:
                    for line in stream.iter_lines():
                        if line.startswith("data:"):
                            heard.append(json.loads(line[5:])["seq"])
                        if heard and heard[-1] >= target:
                            return
            except httpx.TransportError:
                continue

    listener = threading.Thread(target=listen, daemon=True)
    listener.start()
    until(lambda: bool(heard), "the listener is told where the book stands")
    home.server.die_at(points.BEFORE_ANSWER)
    with pytest.raises(phone.Later):
        phone.post(phone.request())
    until(lambda: not listener.is_alive(), "the listener hears of the commit")
    assert heard[-1] == target
    home.check()


def test_p01_workers_killed_again_and_again_under_eight_writers_lose_nothing(home: Home) -> None:
    writers = [home.phone() for _ in range(WRITERS)]
    chance = random.Random(4)
    done = threading.Event()
    killed: list[int] = []

    def kill() -> None:
        try:
            for _ in range(4):
                home.server.wait_whole()
                killed.append(home.server.kill_worker(chance.randrange(2)))
                until(lambda: killed[-1] not in home.server.worker_ids(), "a worker is gone")
        finally:
            done.set()

    def write(phone: KeepingPhone) -> None:
        phone.write_through(15, 3)
        while not done.is_set():  # a quick server is done before the first worker could be killed
            phone.write_through(3, 3)

    jobs: list[Callable[[], None]] = [kill, *(partial(write, phone) for phone in writers)]
    at_once(jobs)
    home.server.wait_whole()
    home.check()
