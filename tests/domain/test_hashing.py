"""Passwords are hashed two at a time, within bounds, and the hashes of before still open their door (A9)."""

import threading
from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.hashers import Argon2PasswordHasher, PBKDF2PasswordHasher, check_password, make_password

from lawn.models import Person
from lawn.settings import PASSWORD_HASHERS
from lawn.web import hashing

PATIENCE_S = 60
PASSWORD = "four wet spaniels"


@pytest.fixture(autouse=True)
def real_hashers(settings: Any) -> None:
    settings.PASSWORD_HASHERS = PASSWORD_HASHERS


class Crowd:
    """Threads that each go through a gate and stay inside until they are let go."""

    def __init__(self, gate: hashing.Gate) -> None:
        self.gate, self.inside, self.most = gate, 0, 0
        self.order: list[str] = []
        self.moved = threading.Condition()
        self.leave = threading.Semaphore(0)
        self.threads: list[threading.Thread] = []

    def send(self, name: str = "", first: bool = False, wanted: int = 1) -> None:
        def go() -> None:
            if first:
                with hashing.going_first():
                    self._through(name, wanted)
            else:
                self._through(name, wanted)

        thread = threading.Thread(target=go)
        thread.start()
        self.threads.append(thread)

    def _through(self, name: str, wanted: int) -> None:
        with self.gate.place(wanted):
            with self.moved:
                self.inside += 1
                self.most = max(self.most, self.inside)
                self.order.append(name)
                self.moved.notify_all()
            self.leave.acquire()
            with self.moved:
                self.inside -= 1

    def wait_until(self, true: Callable[[], bool]) -> None:
        with self.moved:
            assert self.moved.wait_for(true, PATIENCE_S)

    def end(self) -> None:
        for _ in self.threads:
            self.leave.release()
        for thread in self.threads:
            thread.join()


def test_a9_two_go_through_at_a_time_and_all_get_their_turn() -> None:
    crowd = Crowd(hashing.Gate(2))
    for number in range(12):
        crowd.send(str(number))
    crowd.wait_until(lambda: crowd.inside == 2)
    crowd.end()
    assert crowd.most == 2
    assert sorted(crowd.order, key=int) == [str(number) for number in range(12)]


def test_a9_who_waits_too_long_is_asked_to_come_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hashing, "PATIENCE_S", 0.01)
    gate = hashing.Gate(1)
    with gate.place(), pytest.raises(hashing.Crowded), gate.place():
        pass
    with gate.place():
        pass  # the place is free again, and who gave up holds none


def test_a9_a_known_phone_goes_before_strangers_that_came_first() -> None:
    crowd = Crowd(hashing.Gate(1))
    crowd.send("inside")
    crowd.wait_until(lambda: crowd.inside == 1)
    for _ in range(5):
        crowd.send("stranger")
    crowd.send("owner", first=True)
    crowd.wait_until(lambda: crowd.gate._first_waiting == 1)
    crowd.leave.release()
    crowd.wait_until(lambda: len(crowd.order) == 2)
    crowd.end()
    assert crowd.order[:2] == ["inside", "owner"]


def test_a9_a_heavy_hash_is_worked_out_alone() -> None:
    crowd = Crowd(hashing.Gate(2))
    crowd.send("heavy", wanted=2)
    crowd.wait_until(lambda: crowd.inside == 1)
    crowd.send("light")
    crowd.end()
    assert (crowd.most, crowd.order) == (1, ["heavy", "light"])


def test_a_new_hash_takes_19_mib_two_passes_and_one_lane() -> None:
    assert "$argon2id$v=19$m=19456,t=2,p=1$" in make_password(PASSWORD)


@pytest.mark.parametrize("before", [Argon2PasswordHasher(), PBKDF2PasswordHasher()], ids=["argon2", "pbkdf2"])
def test_a_hash_of_before_opens_its_door_and_is_made_anew(db: None, before: Any) -> None:
    old = before.encode(PASSWORD, before.salt())
    person = Person.objects.create_hashed("keeper@example.org", old, "Keeper")
    assert not person.check_password("another one")
    assert person.password == old
    assert person.check_password(PASSWORD)
    person.refresh_from_db()
    assert "m=19456,t=2,p=1" in person.password
    assert person.check_password(PASSWORD)


def test_a_stored_hash_that_asks_for_gigabytes_is_no_password_at_all() -> None:
    huge = make_password(PASSWORD).replace("m=19456", "m=4194304")
    assert not check_password(PASSWORD, huge)


def test_every_way_of_hashing_goes_through_the_gate(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(hashing, "PATIENCE_S", 0.01)
    stored = make_password(PASSWORD)
    with hashing.gate.place(hashing.AT_ONCE):
        for path in PASSWORD_HASHERS:
            with pytest.raises(hashing.Crowded):
                make_password(PASSWORD, hasher=_named(path))
        with pytest.raises(hashing.Crowded):
            check_password(PASSWORD, stored)


def _named(path: str) -> Any:
    from django.utils.module_loading import import_string

    return import_string(path)()
