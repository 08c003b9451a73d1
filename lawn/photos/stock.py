"""Looking through the photo store: for the operator's check, and for copies of it."""

import hashlib
import uuid
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

from lawn.models import Household, Photo
from lawn.photos import files


@dataclass(frozen=True)
class Trouble:
    """A picture that is not as it should be; `code` is damaged, or absent (never sent, or lost)."""

    household_id: uuid.UUID
    sha256: str
    code: str


def pictures() -> Iterator[tuple[uuid.UUID, Path]]:
    """Yield every whole picture with its household, as they lie; partial ones are left out."""
    root = Path(settings.PHOTOS_DIR)
    for folder in sorted(root.iterdir()) if root.is_dir() else []:
        try:
            household_id = uuid.UUID(folder.name)
        except ValueError:
            continue
        for path in files.all_of(household_id):
            yield household_id, path


def damaged() -> Iterator[Trouble]:
    """Yield each picture whose bytes are no longer what its name says: the disk's fault, or somebody's hand."""
    for household_id, path in pictures():
        if hashlib.sha256(path.read_bytes()).hexdigest() != path.name:
            yield Trouble(household_id, path.name, "damaged")


def absent() -> Iterator[Trouble]:
    """Yield each picture that a household's book names and the store lacks.

    That is no fault in itself: the phone that took it may not have sent it yet. After a restore it may be one.
    """
    for household_id in Household.objects.order_by("id").values_list("id", flat=True):
        named = Photo.objects.filter(household_id=household_id, sha256__isnull=False)
        for sha256 in named.order_by("sha256").values_list("sha256", flat=True).distinct():
            if sha256 and not files.has(household_id, sha256):
                yield Trouble(household_id, sha256, "absent")
