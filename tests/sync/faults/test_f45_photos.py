"""F45, F46 on the real server: uploads cut in the middle, a server killed in between, two phones with one picture."""

import socket
import uuid
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path
from urllib.parse import urlsplit

import httpx
import pytest

from tests import pictures
from tests.sync.live import ANSWER_S, Guest, LiveServer, at_once

CHUNK = 64 * 1024
CUTS = 20


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


@pytest.fixture(scope="module")
def picture() -> bytes:
    """A picture of more chunks than it will be cut."""
    return pictures.jpeg(pictures.noise(1600, 1200), quality=92)


class Sender:
    """One phone that sends a picture: it asks where to go on, and sends a chunk from there."""

    def __init__(self, guest: Guest, data: bytes) -> None:
        self.guest, self.data = guest, data
        self.path = f"households/{guest.household}/photos/{pictures.name(data)}"
        self.http = httpx.Client(base_url=guest.http.base_url, cookies=guest.http.cookies, timeout=ANSWER_S)

    @property
    def have(self) -> int:
        """How much the server says it has."""
        return int(self.http.get(f"{self.path}/upload").raise_for_status().json()["have_bytes"])

    def headers(self, first: int) -> dict[str, str]:
        last = min(first + CHUNK, len(self.data)) - 1
        return {"Content-Type": "application/octet-stream", "Content-Range": f"bytes {first}-{last}/{len(self.data)}"}

    def send(self, first: int) -> httpx.Response:
        """One chunk, whole."""
        return self.http.put(self.path, content=self.data[first : first + CHUNK], headers=self.headers(first))

    def send_half(self, first: int) -> None:
        """Half a chunk; then the line goes."""
        chunk = self.data[first : first + CHUNK]
        address = urlsplit(str(self.http.base_url))
        assert address.hostname
        cookies = "; ".join(f"{name}={value}" for name, value in self.http.cookies.items())
        said = {**self.headers(first), "Host": address.netloc, "Cookie": cookies, "Content-Length": str(len(chunk))}
        head = "".join(f"{name}: {value}\r\n" for name, value in said.items())
        with socket.create_connection((address.hostname, address.port or 80)) as wire:
            wire.sendall(f"PUT {address.path}{self.path} HTTP/1.1\r\n{head}\r\n".encode() + chunk[: len(chunk) // 2])

    def send_all(self) -> bytes:
        """From where the server stands to the end; whatever another phone sends meanwhile."""
        while True:
            stands = self.http.get(f"{self.path}/upload").raise_for_status().json()
            if stands["complete"]:
                return self.http.get(self.path).raise_for_status().content
            # All there and not yet checked (another phone's last chunk, or a server killed just then): any chunk asks.
            first = stands["have_bytes"] if stands["have_bytes"] < len(self.data) else 0
            assert self.send(first).status_code in (200, 409)


def kept(server: LiveServer) -> list[Path]:
    """Every file of the photo store, whole or not."""
    return [path for path in server.data.glob("photos/**/*") if path.is_file()]


def test_f45_an_upload_cut_twenty_times_goes_on_each_time_and_ends_whole(
    server: LiveServer, keeper: Guest, picture: bytes
) -> None:
    phone = Sender(keeper, picture)
    assert len(picture) > CUTS * CHUNK
    for cut in range(CUTS):
        first = phone.have
        assert first == cut * CHUNK  # nothing of a half chunk was kept, nothing of a whole one was lost
        phone.send_half(first)
        if cut % 10 == 4:
            server.kill()  # as a power cut ends it
            server.start()
        assert phone.have == first
        assert phone.send(first).json() == {"have_bytes": first + CHUNK, "complete": False}
    assert phone.send_all() == picture


def test_f45_a_server_killed_while_it_takes_a_chunk_has_a_beginning_of_the_picture_and_nothing_else(
    server: LiveServer, keeper: Guest, picture: bytes
) -> None:
    """Killed at any moment: what it says it has is the beginning of the picture, so the rest makes it whole."""
    phone = Sender(keeper, picture)
    for _ in range(3):
        first = phone.have
        with ThreadPoolExecutor() as pool:
            sending = pool.submit(phone.send, first)
            server.kill()
            assert isinstance(sending.exception(), httpx.HTTPError) or sending.result().status_code == 200
        server.start()
        assert phone.have in (first, first + CHUNK)
    assert phone.send_all() == picture


def test_f46_the_same_picture_sent_twice_at_once_is_whole_and_there_once(
    server: LiveServer, keeper: Guest, picture: bytes
) -> None:
    member = Guest(server.url).join(keeper, f"{uuid.uuid4().hex}@example.org")
    phones = [Sender(guest, picture) for guest in (keeper, member, keeper, member)]
    assert at_once([partial(Sender.send_all, phone) for phone in phones]) == [picture] * 4
    mine = [path for path in kept(server) if keeper.household in path.parts]
    assert [path.name for path in mine] == [pictures.name(picture)]


def test_f46_a_picture_that_is_here_already_is_complete_at_once(keeper: Guest, picture: bytes) -> None:
    assert Sender(keeper, picture).send_all() == picture
    second = Sender(keeper, picture)
    assert second.have == len(picture)
    assert second.send(0).json() == {"have_bytes": len(picture), "complete": True}
    answer = keeper.ask(f"households/{keeper.household}/photos/missing", {"sha256": [pictures.name(picture)]})
    assert answer == {"missing": []}


def test_f47_a_photo_whose_picture_never_came_is_in_the_book_with_its_thumbnail(keeper: Guest, picture: bytes) -> None:
    lost, other = keeper.phone(), keeper.phone()
    made, zone = str(uuid.uuid4()), str(uuid.uuid4())
    thumb = {"width_px": 40, "height_px": 30, "size_bytes": len(picture), "thumb": THUMB}
    lost.write("photo", made, photo={"of": "zone", "of_id": zone, "sha256": pictures.name(picture), **thumb})
    lost.sync()
    other.sync()
    assert other.see("photo", made, "photo")["thumb"] == THUMB
    assert keeper.http.get(f"households/{keeper.household}/photos/{pictures.name(picture)}").status_code == 404


THUMB = pictures.base64_of(pictures.jpeg(pictures.quarters(40, 30)))
