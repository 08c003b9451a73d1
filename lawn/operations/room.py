"""Whether a disk holds what is about to be written, asked before the first byte is."""

import shutil
from pathlib import Path

from lawn.operations import Refused

SPARE_BYTES = 64 * 1024 * 1024


def refuse_full(place: Path, needed: int, of: str = "") -> None:
    """Raise Refused where the disk of a folder has no room for so many bytes and some to spare; `of` says what for."""
    wanted = needed + SPARE_BYTES
    if shutil.disk_usage(place).free < wanted:
        raise Refused(f"Too little room in {place}{of}: about {wanted // 1_000_000:,} MB are needed.")
