"""How passwords are hashed, and how many at once.

A hash is slow and large on purpose, so forty sign-ins at one moment must not cost forty times its memory. Two are
worked out at a time in a process; the others wait their turn for a few seconds and are then asked to come again. From a
phone that this person has signed in on before they go first (`going_first`), so that strangers at the door do not keep
the owner out.

Argon2id with 19 MiB, two passes and one lane (OWASP, "Password Storage Cheat Sheet", its second recommendation; RFC
9106 names the parameters). Hashes of other measures still open their door and are made anew at that sign-in.
"""

import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from contextvars import ContextVar
from functools import partial
from typing import TypeVar

from django.contrib.auth.hashers import Argon2PasswordHasher, PBKDF2PasswordHasher

Result = TypeVar("Result")

AT_ONCE = 2
PATIENCE_S = 5.0
# Who goes first may wait longer: nobody stands before them but others of their kind.
FIRST_PATIENCE_S = 20.0
RETRY_AFTER_S = 5
# More than these need not begin to wait: each holds a thread meanwhile.
MOST_WAITING = 64
# The largest measures a stored hash may name; Django's own of before are 100 MiB, two passes, eight lanes.
_MOST_KIB, _MOST_PASSES, _MOST_LANES = 128 * 1024, 8, 16

_first: ContextVar[bool] = ContextVar("first", default=False)


class Crowded(Exception):
    """So many passwords are being tried that this one had no turn; nothing was tried."""


class Gate:
    """Lets so many through at once; who goes first is let in before all others."""

    def __init__(self, places: int) -> None:
        self.places = places
        self._free = places
        self._waiting = self._first_waiting = 0
        self._moved = threading.Condition()

    @contextmanager
    def place(self, wanted: int = 1) -> Iterator[None]:
        """Hold places while the body runs; raise Crowded where none came free in time."""
        first = _first.get()
        with self._moved:
            self._wait(wanted, first)
            self._free -= wanted
        try:
            yield
        finally:
            with self._moved:
                self._free += wanted
                self._moved.notify_all()

    def _wait(self, wanted: int, first: bool) -> None:
        until = time.monotonic() + (FIRST_PATIENCE_S if first else PATIENCE_S)
        self._waiting += 1
        self._first_waiting += first
        try:
            if self._waiting > MOST_WAITING and not first:
                raise Crowded
            while self._free < wanted or (self._first_waiting and not first):
                if not self._moved.wait(until - time.monotonic()):
                    raise Crowded
        finally:
            self._waiting -= 1
            self._first_waiting -= first
            self._moved.notify_all()


gate = Gate(AT_ONCE)
# The work is done by threads of its own: the memory a thread has once used for it is kept for that thread (glibc gives
# each its own arena), so that forty requests, each in a thread of its own, would keep forty times 19 MiB.
_workers = ThreadPoolExecutor(AT_ONCE, thread_name_prefix="hashing")


def _in_turn(wanted: int, work: Callable[[], Result]) -> Result:
    with gate.place(wanted):
        return _workers.submit(work).result()


@contextmanager
def going_first() -> Iterator[None]:
    """Give the passwords tried in the body a place before all others."""
    token = _first.set(True)
    try:
        yield
    finally:
        _first.reset(token)


class Argon2(Argon2PasswordHasher):
    """Argon2id of modest memory, two at a time."""

    time_cost = 2
    memory_cost = 19 * 1024
    parallelism = 1

    def encode(self, password: str, salt: str) -> str:
        """Hash a password in its turn."""
        return str(_in_turn(1, partial(super().encode, password, salt)))

    def verify(self, password: str, encoded: str) -> bool:
        """Try a password in its turn; a hash of more memory than ours takes every place, and one of far more none."""
        said = self.decode(encoded)
        if said["memory_cost"] > _MOST_KIB or said["time_cost"] > _MOST_PASSES or said["parallelism"] > _MOST_LANES:
            return False
        wanted = 1 if said["memory_cost"] <= self.memory_cost else gate.places
        return bool(_in_turn(wanted, partial(super().verify, password, encoded)))


class PBKDF2(PBKDF2PasswordHasher):
    """Django's other hash, for accounts that came with one; two at a time."""

    def encode(self, password: str, salt: str, iterations: int | None = None) -> str:
        """Hash a password in its turn; trying one is hashing it."""
        return str(_in_turn(1, partial(super().encode, password, salt, iterations)))
