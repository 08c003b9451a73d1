"""Identifiers of rows that the server makes."""

import os
import time
import uuid


def new_id() -> uuid.UUID:
    """Return a UUID of version 7 (RFC 9562, section 5.7): 48 bits of Unix milliseconds, then chance.

    Rows made later sort later, so the newest rows of a household lie together in its index.
    """
    milliseconds = time.time_ns() // 1_000_000
    chance = int.from_bytes(os.urandom(10), "big")
    value = (milliseconds & 0xFFFF_FFFF_FFFF) << 80 | chance
    value = value & ~(0xF << 76) | 0x7 << 76
    value = value & ~(0x3 << 62) | 0x2 << 62
    return uuid.UUID(int=value)
