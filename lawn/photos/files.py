"""Where pictures lie, and how one appears there whole or not at all."""

import os
import re
import uuid
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings

_NAME = re.compile(r"\A[0-9a-f]{64}\Z")


def is_name(text: str) -> bool:
    """Whether a text is a SHA-256 as pictures are named: 64 hexadecimal digits in lower case."""
    return _NAME.match(text) is not None


def folder(household_id: uuid.UUID) -> Path:
    """Return the household's own folder, there or not."""
    return Path(settings.PHOTOS_DIR) / str(household_id)


def whole(household_id: uuid.UUID, sha256: str) -> Path:
    """Return where the picture lies, or would."""
    return folder(household_id) / sha256[:2] / sha256


def partial_folder(household_id: uuid.UUID) -> Path:
    """Return where pictures lie that have not come whole."""
    return folder(household_id) / "partial"


def has(household_id: uuid.UUID, sha256: str) -> bool:
    """Whether the picture is here, whole and checked."""
    return whole(household_id, sha256).is_file()


def read(household_id: uuid.UUID, sha256: str) -> bytes | None:
    """Return the picture's bytes, or None where this household has none of that name."""
    try:
        return whole(household_id, sha256).read_bytes()
    except FileNotFoundError:
        return None


def all_of(household_id: uuid.UUID) -> Iterator[Path]:
    """Yield every whole picture of a household, in the order of their names."""
    here = folder(household_id)
    shards = sorted(path for path in here.iterdir() if len(path.name) == 2) if here.is_dir() else []
    for shard in shards:
        yield from sorted(path for path in shard.iterdir() if is_name(path.name))


def publish(household_id: uuid.UUID, sha256: str, checked: Path) -> None:
    """Give a checked file its name, for good: its bytes and its place are on the disk when this returns."""
    _to_disk(checked)
    place = whole(household_id, sha256)
    place.parent.mkdir(parents=True, exist_ok=True)
    os.replace(checked, place)
    for made in (place.parent, place.parent.parent, place.parent.parent.parent):
        _to_disk(made)


def _to_disk(path: Path) -> None:
    """Wait until a file's bytes, or a folder's names, are on the disk."""
    number = os.open(path, os.O_RDONLY)
    try:
        os.fsync(number)
    finally:
        os.close(number)
