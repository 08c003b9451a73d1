"""Photo files, room on the disk, and what was left lying about."""

import shutil
import time
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings

from lawn.operations.doctor.finding import Finding, some
from lawn.photos import stock

_LEAST_FREE_BYTES = 256 * 1024 * 1024
_DAY_S = 24 * 3600


def findings() -> Iterator[Finding]:
    """Yield what is wrong on the disk; nothing is removed."""
    yield from _photos()
    folder = Path(settings.DATA_DIR)
    free = shutil.disk_usage(folder).free
    if free < _LEAST_FREE_BYTES:
        yield Finding(f"Only {free // 1_000_000} MB are free in {folder}: soon nothing can be saved. Make room.")
    yield from some(f"{path} was left by a run that was cut short. Remove it." for path in _leftovers(folder))
    kept = sorted(folder.glob("before-restore-*.zip"))
    if kept:
        yield Finding(f"{len(kept)} stores replaced by a restore are kept, {kept[0].name} first.", fault=False)


def _photos() -> Iterator[Finding]:
    yield from some(
        f"Household {trouble.household_id}: the photo file {trouble.sha256} is damaged. Move it away: a phone that has "
        "it sends it again, or take it from a backup."
        for trouble in stock.damaged()
    )
    absent = sum(1 for _ in stock.absent())
    if absent:
        says = f"{absent} photos are named in the books and not here: phones have not sent them yet, or lost them."
        yield Finding(says, fault=False)


def _leftovers(folder: Path) -> list[Path]:
    """Return drafts of backups and keys that nobody has written to for a day."""
    drafts = [*folder.glob(".*.part"), *folder.glob("secret_key.*")]
    return sorted(path for path in drafts if time.time() - path.stat().st_mtime > _DAY_S)
