"""Stamps of a hybrid logical clock, as text that sorts in time order.

A stamp is 13 digits of milliseconds, "-", 4 hex digits of a counter, "-", 8 hex digits naming the phone.
Source of the scheme: Kulkarni, Demirbas, Madappa, Avva, Leone, "Logical Physical Clocks", OPODIS 2014.
"""

import re

STAMP = re.compile(r"^[0-9]{13}-[0-9a-f]{4}-[0-9a-f]{8}$")
# A phone's clock may run this far ahead of the server's before its stamps are drawn back (S2).
AHEAD_MS = 60_000
_MOST_COUNTS = 0xFFFF


def clamp(stamp: str, now_ms: int) -> str:
    """Return the stamp, its time drawn back to 60 s after the server's clock (`now_ms`, Unix milliseconds)."""
    latest = now_ms + AHEAD_MS
    if int(stamp[:13]) <= latest:
        return stamp
    return f"{latest:013d}{stamp[13:]}"


def later(stamp: str, floor: str | None) -> str:
    """Return the stamp where it already follows `floor`; else the least stamp of the same phone that does.

    A write that saw another one is kept with a later stamp, whatever the clocks said, so that a third phone's
    write meets both in the same order wherever it arrives.
    """
    if floor is None or stamp > floor:
        return stamp
    ms, count, node = int(floor[:13]), int(floor[14:18], 16), stamp[19:]
    if count < _MOST_COUNTS:
        return f"{ms:013d}-{count + 1:04x}-{node}"
    return f"{ms + 1:013d}-0000-{node}"
