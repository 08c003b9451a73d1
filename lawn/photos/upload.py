"""Taking a picture in chunks: after any cut the phone asks how much is here and goes on from there."""

import errno
import os
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from django.conf import settings
from django.core.files import locks

from lawn.contract.refusal import Refused
from lawn.photos import files
from lawn.photos.check import MOST_BYTES, check, too_large
from lawn.photos.refusal import Full, Gap

_FORGOTTEN_S = 30 * 24 * 3600
_NO_ROOM = (errno.ENOSPC, errno.EDQUOT)


@dataclass(frozen=True)
class Standing:
    """How much of a picture is here."""

    have_bytes: int
    complete: bool


@dataclass(frozen=True)
class Chunk:
    """Some bytes of a picture of `total` bytes, from the byte number `first` on."""

    first: int
    total: int
    data: bytes


def missing(household_id: uuid.UUID, names: list[str]) -> list[str]:
    """Return those of the names under which this household has no picture, in their order."""
    return [name for name in names if not files.has(household_id, name)]


def standing(household_id: uuid.UUID, sha256: str, total: int | None = None) -> Standing:
    """Return how much is here of a picture of `total` bytes.

    Without a total, the least of what was begun under that name: a wrong total of somebody else's must not send a
    phone on behind the end of its own.
    """
    place = files.whole(household_id, sha256)
    with suppress(FileNotFoundError):
        return Standing(place.stat().st_size, True)
    begun = files.partial_folder(household_id).glob(f"{sha256}.{'*' if total is None else total}")
    return Standing(min((_size(path) for path in begun), default=0), False)


def take(household_id: uuid.UUID, sha256: str, chunk: Chunk) -> Standing:
    """Add a chunk; with the last one the picture is checked and kept.

    Raises Gap for a chunk that begins after what is here, Refused for a picture that is not kept (what has come of it
    is forgotten, so that it can begin anew), Full where there is no room. What a chunk repeats is passed over.
    """
    if chunk.total > MOST_BYTES:
        raise too_large()
    here = standing(household_id, sha256)
    if here.complete:
        return here
    partial = files.partial_folder(household_id) / f"{sha256}.{chunk.total}"
    if not partial.exists():
        _make_room(household_id, chunk.total)
    try:
        return _take(household_id, sha256, chunk, partial)
    except OSError as trouble:
        if trouble.errno in _NO_ROOM:
            raise Full from trouble
        raise


def _take(household_id: uuid.UUID, sha256: str, chunk: Chunk, partial: Path) -> Standing:
    with _held(partial) as file:
        if files.has(household_id, sha256):  # another phone's last chunk came while this one waited
            partial.unlink()
            return standing(household_id, sha256)
        have = file.seek(0, os.SEEK_END)
        if chunk.first > have:
            raise Gap(have)
        file.write(chunk.data[have - chunk.first :])
        file.flush()
        have = file.tell()
        if have < chunk.total:
            return Standing(have, False)
        file.seek(0)
        try:
            check(file.read(), sha256)
        except Refused:
            partial.unlink()
            raise
        files.publish(household_id, sha256, partial)
        return Standing(have, True)


@contextmanager
def _held(path: Path) -> Iterator[BinaryIO]:
    """Open a partial file for this request alone, across threads and processes; made when it is not there."""
    path.parent.mkdir(parents=True, exist_ok=True)
    while True:
        number = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
        with os.fdopen(number, "r+b") as file:
            locks.lock(file, locks.LOCK_EX)
            # Whoever held it before may have published or forgotten it: then this is no longer the file of that name.
            if not _is_still(path, file):
                continue
            yield file
            return


def _is_still(path: Path, file: BinaryIO) -> bool:
    try:
        return os.path.samestat(path.stat(), os.fstat(file.fileno()))
    except FileNotFoundError:
        return False


def _make_room(household_id: uuid.UUID, total: int) -> None:
    """Raise Full where one more picture would be too many; begun ones count by what they will be."""
    begun = [path for path in _partials(household_id) if not _forgotten(path)]
    kept = [_size(path) for path in files.all_of(household_id)]
    sizes = kept + [int(path.name.split(".")[1]) for path in begun]
    if len(sizes) >= settings.PHOTOS_MOST or sum(sizes) + total > settings.PHOTOS_MOST_BYTES:
        raise Full


def _partials(household_id: uuid.UUID) -> list[Path]:
    here = files.partial_folder(household_id)
    return list(here.iterdir()) if here.is_dir() else []


def _forgotten(path: Path) -> bool:
    """Take away what nobody has gone on with for a month; the phone that still has the picture begins anew."""
    with suppress(FileNotFoundError):
        if time.time() - path.stat().st_mtime < _FORGOTTEN_S:
            return False
        path.unlink()
    return True


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except FileNotFoundError:
        return 0
