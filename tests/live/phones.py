"""Phones for real servers: they go on after errors, and keep acknowledged ops to refill a restored server (S11)."""

import threading
import time
from typing import Any

import httpx

from tests.live.history import History
from tests.sync.live import ANSWER_S, Guest
from tests.sync.phone import Phone, canonical_hash

LATER = (500, 502, 503, 504)  # never a verdict (S9)
_PAUSE_S = 0.1
_PATIENCE_S = 300.0  # only a failure waits this long


class Later(Exception):
    """No answer that settles anything came; everything waits as before."""


class KeepingPhone(Phone):
    """A phone that keeps what was acknowledged, as phones do for 30 days, and tells a history what it was told."""

    Later = Later

    def __init__(self, guest: Guest, history: History, name: str, timeout_s: float = ANSWER_S) -> None:
        device = guest.ask(f"households/{guest.household}/devices", {"name": name})["device"]
        self._line = httpx.Client(base_url=guest.http.base_url, cookies=guest.http.cookies, timeout=timeout_s)
        self._path, self.history, self.name = f"households/{guest.household}/sync", history, name
        self.kept: list[dict[str, Any]] = []
        self.epoch = ""
        self.refills = 0
        super().__init__(self._post, device)

    def _post(self, body: dict[str, Any]) -> dict[str, Any]:
        try:
            response = self._line.post(self._path, json=body)
        except httpx.TransportError as error:
            raise Later(str(error)) from error
        if response.status_code in LATER:
            raise Later(response.text[:200])
        assert response.status_code == 200, response.text
        answer: dict[str, Any] = response.json()
        return answer

    def note(self, text: str) -> str:
        """Save an observation; return its id."""
        entry = self.log("observation", text=text)
        self.history.saved(self.name, self.outbox[-1]["op"], entry)
        return entry

    def take(self, answer: dict[str, Any]) -> None:
        """Store an answer; begin anew where it comes from another epoch."""
        sent = {op["op"]: op for op in self.outbox}
        super().take(answer)
        for result in answer["results"]:
            self.history.heard(result["op"])
            if result["op"] in sent:
                self.kept.append(sent[result["op"]])
        if self.epoch and answer["epoch"] != self.epoch:
            self._refill()
        self.epoch = answer["epoch"]

    def _refill(self) -> None:
        """Number everything kept and waiting anew, under a new incarnation, and pull from the start."""
        self.refills += 1
        again, self.kept, self.outbox = [*self.kept, *self.outbox], [], []
        fresh = Phone(self.post, self.device)
        self.incarnation, self.dseq, self.confirmed, self.cursor = fresh.incarnation, 0, 0, 0
        self.records.clear()
        for op in again:
            self.dseq += 1
            self.results.pop(op["op"], None)  # its old verdict is of another epoch
            said = {**op, "dseq": self.dseq}
            self.outbox.append({**said, "hash": canonical_hash(said)})

    def sync_through(self) -> None:
        """Sync until nothing waits on either side, trying again for as long as it takes."""
        end = time.monotonic() + _PATIENCE_S
        trouble = ""
        while True:
            stands = {name: self.answer.get(name) for name in ("need_from", "fork_detected", "has_more", "reset")}
            assert time.monotonic() < end, f"{self.name} never came to rest: {trouble} {stands}"
            try:
                self.take(self.post(self.request()))
            except Later as later:
                trouble = repr(later)
                threading.Event().wait(_PAUSE_S)  # a phone's back-off, not a wait for anything in particular
                continue
            if not self.outbox and not self.answer["has_more"]:
                return

    def write_through(self, count: int, most: int = 4) -> None:
        """Save entries and push each few of them until they are acknowledged."""
        for number in range(count):
            self.note(f"{self.name} {number}")
            if number % most == most - 1:
                self.sync_through()
        self.sync_through()


def check_alike(phones: list[KeepingPhone]) -> None:
    """Fail unless every phone, brought up to date, holds the same book, and the server's digest of it."""
    for phone in phones * 2:
        phone.sync_through()
    for phone in phones:
        assert phone.records == phones[0].records
        assert phone.digest == phone.answer["digest"]
