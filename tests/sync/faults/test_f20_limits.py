"""F20 and sizes: how often and how much may come, and that a refusal means "later"."""

import asyncio
import json
import uuid
from collections.abc import Iterator
from typing import Any

import httpx
import pytest
from django.core.cache import cache

from api.sync import throttles
from lawn.models import Entry
from lawn.web.body_limits import MOST_BYTES, Bounded
from tests.sync.conftest import House, signed_in
from tests.sync.live import Guest, LiveServer


@pytest.fixture
def three_a_minute(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(throttles.PerPhone, "THROTTLE_RATES", {"sync_phone": "3/min"})
    cache.clear()
    yield
    cache.clear()


def test_f20_a_phone_that_asks_too_often_is_told_when_to_come_back(house: House, three_a_minute: None) -> None:
    client = signed_in(house.keeper)
    house.mine.log("mow")
    asked = house.mine.request()
    answers = [client.post(house.path, {**asked, "ops": []}, content_type="application/json") for _ in range(3)]
    refused = client.post(house.path, asked, content_type="application/json")
    assert [answer.status_code for answer in answers] == [200] * 3
    assert (refused.status_code, refused.json()["code"]) == (429, "throttled")
    assert 0 < int(refused["Retry-After"]) <= 60
    assert Entry.objects.count() == 0


def test_f20_one_phones_haste_holds_up_no_other(house: House, three_a_minute: None) -> None:
    mine, theirs = signed_in(house.keeper), signed_in(house.member)
    asked = {**house.mine.request(), "ops": []}
    codes = [mine.post(house.path, asked, content_type="application/json").status_code for _ in range(4)]
    other = {**house.theirs.request(), "ops": []}
    assert codes[-1] == 429
    assert theirs.post(house.path, other, content_type="application/json").status_code == 200


def test_f20_a_stranger_cannot_use_up_a_households_turns(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    from tests.factories import KeeperFactory

    monkeypatch.setattr(throttles.PerMember, "THROTTLE_RATES", {"sync_member": "3/min"})
    cache.clear()
    stranger = signed_in(KeeperFactory.create())
    codes = [stranger.post(house.path, {}, content_type="application/json").status_code for _ in range(5)]
    assert codes == [404, 404, 404, 429, 429]
    assert house.mine.sync()["head"] > 0
    cache.clear()


# --- sizes, in front of Django ------------------------------------------------------------------
class Inside:
    """An application that reads its whole body, then says 200; it notes how much it was given."""

    def __init__(self) -> None:
        self.read, self.hung_up = 0, False

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        while True:
            message = await receive()
            if message["type"] == "http.disconnect":
                self.hung_up = True
                return
            self.read += len(message["body"])
            if not message.get("more_body"):
                break
        await send({"type": "http.response.start", "status": 200, "headers": []})
        await send({"type": "http.response.body", "body": b""})


def post(inside: Inside, chunks: list[bytes], length: bytes | None = None) -> list[dict[str, Any]]:
    """Post chunks of a body to a bounded application; what it sent back."""
    sent: list[dict[str, Any]] = []
    coming = [
        {"type": "http.request", "body": chunk, "more_body": n < len(chunks) - 1} for n, chunk in enumerate(chunks)
    ]

    async def receive() -> dict[str, Any]:
        return coming.pop(0)

    async def send(message: Any) -> None:
        sent.append(message)

    headers = [(b"content-length", length)] if length is not None else []
    asyncio.run(Bounded(inside, most=1000)({"type": "http", "headers": headers}, receive, send))
    return sent


def test_f16_a_body_that_names_too_great_a_length_is_refused_unread() -> None:
    inside = Inside()
    sent = post(inside, [b"x" * 1001], b"1001")
    assert (sent[0]["status"], json.loads(sent[1]["body"])["code"]) == (413, "too_large")
    assert inside.read == 0


def test_f16_a_body_of_unnamed_length_is_refused_once_it_is_too_large() -> None:
    inside = Inside()
    sent = post(inside, [b"x" * 400] * 10)
    assert [message["status"] for message in sent if "status" in message] == [413]
    assert (inside.read, inside.hung_up) == (800, True)


@pytest.mark.parametrize("length", [b"1000", None, b"nonsense"])
def test_a_body_of_just_the_limit_passes(length: bytes | None) -> None:
    inside = Inside()
    assert post(inside, [b"x" * 500, b"x" * 500], length)[0]["status"] == 200
    assert inside.read == 1000


@pytest.fixture(scope="module")
def server() -> Iterator[LiveServer]:
    live = LiveServer()
    live.start()
    yield live
    live.close()


def test_f16_the_real_server_refuses_a_body_beyond_every_limit_and_serves_on(server: LiveServer) -> None:
    guest = Guest(server.url).sign_up(f"{uuid.uuid4().hex}@example.org")
    path = f"households/{guest.household}/sync"
    headers = {"Content-Type": "application/json", "Content-Length": str(MOST_BYTES + 1)}
    try:
        response = guest.http.post(path, content=b" " * (MOST_BYTES + 1), headers=headers)
        assert (response.status_code, response.json()["code"]) == (413, "too_large")
    except httpx.WriteError:
        pass  # refused before it was all written: the line was closed on the sender, who tries again in parts
    phone = guest.phone()
    phone.log("mow")
    assert phone.sync()["results"][0]["s"] == "applied"
