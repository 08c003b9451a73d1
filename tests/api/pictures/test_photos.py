"""A household's pictures over HTTP: in chunks, checked when whole, given only to its members."""

import errno
import os
import uuid
from typing import Any

import pytest
from django.utils import timezone

from lawn.models import Member, Photo
from lawn.photos import files, stock
from tests import pictures
from tests.api.conftest import Caller, Cast

CHUNK = 256 * 1024


def base(household: object) -> str:
    return f"/api/v1/households/{household}/photos"


def put(caller: Caller, household: object, name: str, data: bytes, content_range: str | None, **more: str) -> Any:
    headers = {**({"Content-Range": content_range} if content_range else {}), **more}
    path = f"{base(household)}/{name}"
    return caller.client.generic("PUT", path, data, content_type="application/octet-stream", headers=headers)


def chunk(caller: Caller, household: object, data: bytes, first: int, last: int, name: str = "") -> Any:
    said = f"bytes {first}-{last}/{len(data)}"
    return put(caller, household, name or pictures.name(data), data[first : last + 1], said)


def send(caller: Caller, household: object, data: bytes, name: str = "") -> Any:
    """Send a picture in as many chunks as it takes; the last answer."""
    answer = None
    for first in range(0, len(data), CHUNK):
        answer = chunk(caller, household, data, first, min(first + CHUNK, len(data)) - 1, name)
    return answer


@pytest.fixture(scope="module")
def large() -> bytes:
    """A picture of several chunks."""
    return pictures.jpeg(pictures.noise(900, 700), quality=90)


@pytest.fixture
def small() -> bytes:
    return pictures.jpeg(pictures.quarters(40, 30))


def test_s19_a_picture_sent_in_chunks_is_given_back_as_it_came(cast: Cast, large: bytes) -> None:
    assert len(large) > 2 * CHUNK
    assert cast.member.post(f"{base(cast.ours.id)}/missing", {"sha256": [pictures.name(large)]}).json() == {
        "missing": [pictures.name(large)]
    }
    answer = send(cast.member, cast.ours.id, large)
    assert (answer.status_code, answer.json()) == (200, {"have_bytes": len(large), "complete": True})
    assert cast.member.post(f"{base(cast.ours.id)}/missing", {"sha256": [pictures.name(large)]}).json() == {
        "missing": []
    }
    got = cast.keeper.get(f"{base(cast.ours.id)}/{pictures.name(large)}")
    assert (got.status_code, got.content) == (200, large)


def test_a_picture_is_served_as_a_picture_and_nothing_else(cast: Cast, small: bytes) -> None:
    send(cast.member, cast.ours.id, small)
    got = cast.keeper.get(f"{base(cast.ours.id)}/{pictures.name(small)}", Accept="image/webp,image/*;q=0.8")
    assert got.status_code == 200
    assert got["Content-Type"] == "image/jpeg"
    assert got["X-Content-Type-Options"] == "nosniff"
    assert got["Content-Disposition"].startswith("attachment;")
    assert got["Content-Security-Policy"] == "default-src 'none'; sandbox"
    assert got["Cross-Origin-Resource-Policy"] == "same-origin"
    assert {"private", "immutable"} <= {part.strip() for part in got["Cache-Control"].split(",")}


@pytest.mark.parametrize(
    "said",
    [
        None,
        "",
        "bytes",
        "bytes */40",
        "bytes 0-39/*",  # RFC 9110 allows an unknown length; a phone knows how large its picture is
        "bytes=0-39/40",
        "bytes 39-0/40",
        "bytes 0-40/40",
        "bytes 0-39/39",
        "bytes -1-39/40",
        "lines 0-39/40",
        "bytes 0-39/40, 40-79/80",
        "bytes 0x0-0x27/0x28",
        "bytes ٠-٣٩/٤٠",
        "bytes 0-39/99999999999999999999",
        "bytes 0-38/40",  # one byte fewer than the body has
    ],
)
def test_a_range_that_is_missing_unreadable_or_untrue_is_refused(cast: Cast, said: str | None) -> None:
    data = bytes(40)
    encoded = said.encode().decode("latin-1") if said else said
    answer = put(cast.keeper, cast.ours.id, pictures.name(data), data, encoded)
    assert (answer.status_code, answer.json()["code"]) == (400, "bad_range")
    here = cast.keeper.get(f"{base(cast.ours.id)}/{pictures.name(data)}/upload")
    assert here.json() == {"have_bytes": 0, "complete": False}


def test_a_gap_is_refused_and_an_overlap_is_passed_over(cast: Cast, large: bytes) -> None:
    here = f"{base(cast.ours.id)}/{pictures.name(large)}/upload"
    gap = chunk(cast.keeper, cast.ours.id, large, 100, 200)
    assert (gap.status_code, gap.json()["code"]) == (409, "gap")
    assert chunk(cast.keeper, cast.ours.id, large, 0, 999).json() == {"have_bytes": 1000, "complete": False}
    gap = chunk(cast.keeper, cast.ours.id, large, 1001, 2000)
    assert gap.status_code == 409
    assert cast.keeper.get(here).json() == {"have_bytes": 1000, "complete": False}
    assert chunk(cast.keeper, cast.ours.id, large, 0, 499).json() == {"have_bytes": 1000, "complete": False}
    assert chunk(cast.keeper, cast.ours.id, large, 500, 1499).json() == {"have_bytes": 1500, "complete": False}
    assert cast.member.get(here).json() == {"have_bytes": 1500, "complete": False}
    # Whole at the end, so what overlapped was laid where it belongs.
    for first in range(1500, len(large), CHUNK):
        answer = chunk(cast.keeper, cast.ours.id, large, first, min(first + CHUNK, len(large)) - 1)
    assert answer.json() == {"have_bytes": len(large), "complete": True}
    assert cast.member.get(here).json() == {"have_bytes": len(large), "complete": True}


def test_f45_all_there_and_not_yet_checked_is_checked_by_any_chunk(cast: Cast, small: bytes) -> None:
    """So a server leaves it that was killed between the last byte and its check."""
    name = pictures.name(small)
    partial = files.partial_folder(cast.ours.id) / f"{name}.{len(small)}"
    partial.parent.mkdir(parents=True)
    partial.write_bytes(small)
    here = f"{base(cast.ours.id)}/{name}/upload"
    assert cast.keeper.get(here).json() == {"have_bytes": len(small), "complete": False}
    assert chunk(cast.keeper, cast.ours.id, small, 0, 9).json() == {"have_bytes": len(small), "complete": True}


def test_another_length_under_the_same_name_does_not_stand_in_the_way(cast: Cast, small: bytes) -> None:
    longer = put(cast.keeper, cast.ours.id, pictures.name(small), b"wrong", f"bytes 0-4/{len(small) + 5}")
    assert longer.json() == {"have_bytes": 5, "complete": False}
    assert send(cast.member, cast.ours.id, small).json() == {"have_bytes": len(small), "complete": True}


def test_what_was_begun_and_not_gone_on_with_for_a_month_makes_room(cast: Cast, settings: Any, small: bytes) -> None:
    settings.PHOTOS_MOST = 1
    old = pictures.jpeg(pictures.noise(30, 20))
    chunk(cast.keeper, cast.ours.id, old, 0, 9)
    assert send(cast.keeper, cast.ours.id, small).status_code == 507
    [partial] = files.partial_folder(cast.ours.id).iterdir()
    month_ago = partial.stat().st_mtime - 31 * 24 * 3600
    os.utime(partial, (month_ago, month_ago))
    assert send(cast.keeper, cast.ours.id, small).status_code == 200


def test_a_disk_without_room_means_later(cast: Cast, monkeypatch: pytest.MonkeyPatch, small: bytes) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("lawn.photos.files.os.fsync", full)
    answer = send(cast.keeper, cast.ours.id, small)
    assert (answer.status_code, answer.json()["code"]) == (507, "photos_full")
    monkeypatch.undo()
    assert send(cast.keeper, cast.ours.id, small).json()["complete"] is True


def test_the_operators_look_finds_damaged_and_absent_pictures(cast: Cast, small: bytes) -> None:
    other = pictures.jpeg(pictures.noise(30, 20))
    for data in (small, other):
        send(cast.keeper, cast.ours.id, data)
    assert list(stock.damaged()) == []
    place = files.whole(cast.ours.id, pictures.name(small))
    place.write_bytes(small[:-1])
    assert list(stock.damaged()) == [stock.Trouble(cast.ours.id, pictures.name(small), "damaged")]
    now = timezone.now()
    for data in (other, b"never sent"):
        Photo(household_id=cast.ours.id, id=uuid.uuid4(), sha256=pictures.name(data), received_at=now).save()
    assert list(stock.absent()) == [stock.Trouble(cast.ours.id, pictures.name(b"never sent"), "absent")]
    assert {path.name for _, path in stock.pictures()} >= {pictures.name(small), pictures.name(other)}


def test_a_chunk_that_is_too_large_packed_or_no_octets_is_refused(cast: Cast) -> None:
    data = bytes(CHUNK + 1)
    said = f"bytes 0-{CHUNK}/{CHUNK + 1}"
    assert put(cast.keeper, cast.ours.id, pictures.name(data), data, said).status_code == 413
    packed = put(
        cast.keeper, cast.ours.id, pictures.name(data), data[:40], "bytes 0-39/40", **{"Content-Encoding": "gzip"}
    )
    assert packed.status_code == 415
    assert cast.keeper.send("PUT", f"{base(cast.ours.id)}/{pictures.name(data)}", {}).status_code == 415


@pytest.mark.parametrize("name", ["0" * 63, "0" * 65, "A" * 64, "..", "missing", "%2e%2e%2fsecret_key", "é" * 64])
def test_what_cannot_be_a_pictures_name_is_not_found(cast: Cast, name: str) -> None:
    path = f"{base(cast.ours.id)}/{name}"
    assert cast.keeper.get(path).status_code in (404, 405)
    assert cast.keeper.get(f"{path}/upload").status_code == 404
    assert put(cast.keeper, cast.ours.id, name, b"x", "bytes 0-0/1").status_code in (404, 405)


def test_p10_a_hash_tells_nothing_of_another_household(cast: Cast, small: bytes) -> None:
    """The same picture is asked for, sent and checked in each household by itself."""
    name = pictures.name(small)
    send(cast.keeper, cast.ours.id, small)
    theirs = base(cast.theirs.id)
    assert cast.stranger.post(f"{theirs}/missing", {"sha256": [name]}).json() == {"missing": [name]}
    assert cast.stranger.get(f"{theirs}/{name}/upload").json() == {"have_bytes": 0, "complete": False}
    assert cast.stranger.get(f"{theirs}/{name}").status_code == 404
    assert cast.stranger.get(f"{base(cast.ours.id)}/{name}").status_code == 404
    # Who knows the hash but has not the bytes gets no picture by announcing it.
    assert chunk(cast.stranger, cast.theirs.id, small, 0, 99).json() == {"have_bytes": 100, "complete": False}
    assert cast.stranger.get(f"{theirs}/{name}").status_code == 404
    assert send(cast.stranger, cast.theirs.id, small).json()["complete"] is True


def test_a_member_who_was_removed_has_no_access_to_pictures_at_the_next_request(cast: Cast, small: bytes) -> None:
    send(cast.member, cast.ours.id, small)
    path = f"{base(cast.ours.id)}/{pictures.name(small)}"
    assert cast.member.get(path).status_code == 200
    Member.objects.filter(person__email="member@example.org").update(active=False)
    assert cast.member.get(path).status_code == 404
    assert cast.member.get(f"{path}/upload").status_code == 404
    assert cast.member.post(f"{base(cast.ours.id)}/missing", {"sha256": []}).status_code == 404
    assert send(cast.member, cast.ours.id, small).status_code == 404


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({}, "sha256"),
        ({"sha256": "x"}, "sha256"),
        ({"sha256": ["G" * 64]}, "sha256.0"),
        ({"sha256": ["0" * 64] * 501}, "sha256"),
    ],
)
def test_which_are_missing_is_answered_for_names_only_and_500_at_most(cast: Cast, sent: Any, field: str) -> None:
    answer = cast.keeper.post(f"{base(cast.ours.id)}/missing", sent)
    assert answer.status_code == 400
    assert set(answer.json()["fields"]) == {field}


def test_the_cap_on_photos_is_the_households_own(cast: Cast, settings: Any) -> None:
    settings.PHOTOS_MOST = 2
    first, second, third = (pictures.jpeg(pictures.noise(30, 20, seed)) for seed in (1, 2, 3))
    assert send(cast.keeper, cast.ours.id, first).status_code == 200
    assert chunk(cast.keeper, cast.ours.id, second, 0, 99).status_code == 200  # begun, and counted as if whole
    full = send(cast.member, cast.ours.id, third)
    assert (full.status_code, full.json()["code"]) == (507, "photos_full")
    assert send(cast.stranger, cast.theirs.id, third).status_code == 200
    assert send(cast.keeper, cast.ours.id, second).status_code == 200  # what was begun can be ended
    assert send(cast.member, cast.ours.id, first).json()["complete"] is True  # what is here needs no room


def test_the_cap_on_bytes_counts_what_a_begun_picture_will_be(cast: Cast, settings: Any) -> None:
    first, second = (pictures.jpeg(pictures.noise(60, 40, seed), quality=90) for seed in (1, 2))
    settings.PHOTOS_MOST_BYTES = len(first) + len(second) - 1
    assert chunk(cast.keeper, cast.ours.id, first, 0, 0).status_code == 200
    assert chunk(cast.keeper, cast.ours.id, second, 0, 0).status_code == 507
    settings.PHOTOS_MOST_BYTES += 1
    assert chunk(cast.keeper, cast.ours.id, second, 0, 0).status_code == 200


def test_pictures_are_throttled_by_person(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    from api.photos.throttles import PhotosPerPerson

    monkeypatch.setattr(PhotosPerPerson, "rate", "3/min", raising=False)
    path = f"{base(cast.ours.id)}/{uuid.uuid4().hex * 2}/upload"
    assert [cast.keeper.get(path).status_code for _ in range(4)] == [200, 200, 200, 429]
    assert cast.keeper.get(path)["Retry-After"]
    assert cast.member.get(path).status_code == 200
    assert cast.anonymous.get(path).status_code == 401
