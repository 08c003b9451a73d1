"""A household made over HTTP, with things in its book, so that a journey can begin where it begins.

Only the server's contract is used: sign up, ask for a device, push ops. What a journey is about it does by hand.
"""

import hashlib
import http.cookiejar
import json
import os
import time
import urllib.request
import uuid
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from typing import Any

from tests.journeys.acts import PASSWORD, new_email
from tests.journeys.server import Server


def new_id() -> str:
    """A UUIDv7, as phones make them."""
    millis = time.time_ns() // 1_000_000
    number = millis << 80 | 7 << 76 | int.from_bytes(os.urandom(2)) % 4096 << 64
    return str(uuid.UUID(int=number | 2 << 62 | int.from_bytes(os.urandom(8)) % 2**62))


@dataclass
class Book:
    """One person's household on a server, and the device that writes to it."""

    server: Server
    email: str
    household: str = ""
    member: str = ""
    device: str = ""
    incarnation: str = field(default_factory=new_id)
    dseq: int = 0
    cursor: int = 0

    def __post_init__(self) -> None:
        cookies = urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar())
        self._opener = urllib.request.build_opener(cookies)

    def post(self, path: str, body: object) -> Any:
        """POST JSON as the phone does; the answer's JSON; None for an empty one."""
        headers = {"Content-Type": "application/json", "Origin": self.server.url}
        request = urllib.request.Request(
            f"{self.server.url}/api/v1/{path}", json.dumps(body).encode(), headers, method="POST"
        )
        with self._opener.open(request, timeout=120) as answer:
            said = answer.read()
        return json.loads(said) if said else None

    def op(self, items: list[dict[str, Any]]) -> dict[str, Any]:
        """One op of this device, numbered and stamped."""
        self.dseq += 1
        stamp = f"{time.time_ns() // 1_000_000:013d}-{self.dseq % 65536:04x}-{self.device[:8]}"
        op = {"op": new_id(), "dseq": self.dseq, "hlc": stamp, "schema": 1, "m": items}
        text = json.dumps(op, sort_keys=True, separators=(",", ":"))
        return {**op, "hash": hashlib.sha256(text.encode()).hexdigest()}

    def sync(self, ops: list[dict[str, Any]], limit: int = 1000) -> Any:
        """One round trip; every op sent must be taken."""
        body = {"proto": 1, "schema": 1, "build": "journeys", "device": self.device, "incarnation": self.incarnation}
        body |= {"cursor": self.cursor, "confirmed_dseq": 0, "ops": ops, "limit": limit}
        answer = self.post(f"households/{self.household}/sync", body)
        refused = [result for result in answer["results"] if result["s"] != "applied"]
        if refused:
            raise AssertionError(f"not applied: {refused[:3]}")
        return answer

    def write(self, kind: str, groups: dict[str, dict[str, Any]]) -> str:
        """A new record of a settings kind; its id."""
        made = new_id()
        self.sync([self.op([{"t": kind, "id": made, "set": groups, "base": dict.fromkeys(groups)}])])
        return made

    def settle(self, groups: dict[str, Any]) -> None:
        """Set what belongs to the household itself."""
        item = {"t": "household", "id": self.household, "set": groups, "base": dict.fromkeys(groups)}
        self.sync([self.op([item])])

    def enter(self, body: dict[str, Any]) -> str:
        """A new log entry of now; its id."""
        made = new_id()
        self.sync([self.op([self.entry(made, body)])])
        return made

    def entry(self, made: str, body: dict[str, Any]) -> dict[str, Any]:
        """The mutation that creates an entry."""
        common = {"occurred_at": datetime.now(UTC).isoformat(timespec="seconds"), "by": self.member}
        return {"t": "entry", "id": made, "body": {**common, **body}}

    def entries(self) -> list[dict[str, Any]]:
        """Every log entry the server has of this household, in the order it took them."""
        changes: list[dict[str, Any]] = []
        self.cursor = 0
        while True:
            answer = self.sync([])
            changes += answer["changes"]
            self.cursor = answer["cursor"]
            if not answer["has_more"]:
                return [record for record in changes if record["t"] == "entry"]

    # Things to begin with --------------------------------------------------------------------

    def zone(self, name: str, area_m2: float = 200.0, **groups: dict[str, Any]) -> str:
        """A zone whose area was typed in."""
        ground = {"area_m2": area_m2, "method": "typed"}
        return self.write("zone", {"name": {"name": name}, "ground": ground, **groups})

    def product(self, name: str, **groups: dict[str, Any]) -> str:
        """A fertilizer of 20 kg for 400 m², 23-0-9."""
        label = {"net_kg": 20.0, "coverage_m2": 400.0}
        analysis = {"n_percent": 23.0, "p2o5_percent": 0.0, "k2o_percent": 9.0}
        named = {"name": name, "sort": "fertilizer"}
        return self.write("product", {"name": named, "label": label, **{"analysis": analysis, **groups}})

    def step(self, plan: str, job: str, zones: list[str], first: date, **groups: dict[str, Any]) -> str:
        """A step of a plan in the week from a day."""
        window = {"from_on": first.isoformat(), "to_on": (first + timedelta(6)).isoformat()}
        sets: dict[str, dict[str, Any]] = {
            "job": {"plan_id": plan, "job": job},
            "ground": {"zone_ids": zones},
            "window": window,
        }
        stands: dict[str, dict[str, Any]] = {"lock": {"locked": False}, "state": {"state": "planned"}}
        return self.write("step", {**sets, **stands, **groups})

    def spreader(self, name: str, **groups: dict[str, Any]) -> str:
        """A rotary spreader, dial 1 to 24 in half clicks."""
        dial = {"lowest": 1.0, "highest": 24.0, "step": 0.5}
        walking = {"swath_m": 1.5, "speed_m_s": 1.3}
        return self.write(
            "spreader", {"name": {"name": name, "sort": "rotary"}, "dial": dial, "walking": walking, **groups}
        )


def start_book(server: Server, units: str = "us") -> Book:
    """Sign a new keeper up over HTTP."""
    book = Book(server, new_email())
    person = {"name": "First Keeper", "email": book.email, "password": PASSWORD}
    me = book.post("accounts/sign-up", {**person, "household_name": "Trial yard", "units": units})
    book.household, book.member = me["households"][0]["id"], me["households"][0]["member_id"]
    book.device = book.post(f"households/{book.household}/devices", {"name": "journeys"})["device"]
    return book
