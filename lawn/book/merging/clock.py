"""Stamps of a hybrid logical clock, as text that sorts in time order.

A stamp is 13 digits of milliseconds, "-", 4 hex digits of a counter, "-", 8 hex digits naming the phone.
Source of the scheme: Kulkarni, Demirbas, Madappa, Avva, Leone, "Logical Physical Clocks", OPODIS 2014.
"""

import re

STAMP = re.compile(r"\A[0-9]{13}-[0-9a-f]{4}-[0-9a-f]{8}\Z")
# A phone's clock may run this far ahead of the server's before its stamps are drawn back (S2).
AHEAD_MS = 60_000
# The end of 2269: a later stamp was never given, and whoever followed one could soon not count on in 13 digits.
LAST_MS = 9_467_107_199_999
_MOST_COUNTS = 0xFFFF


def is_stamp(stamp: object) -> bool:
    """Whether this is a stamp a book may hold: nothing round it, and of a time there can be."""
    return isinstance(stamp, str) and STAMP.match(stamp) is not None and int(stamp[:13]) <= LAST_MS


def rank(stamp: str) -> str:
    """Return what stamps are compared by; what is none, however it came into the table, comes before all that are."""
    return stamp if is_stamp(stamp) else ""


def clamp(stamp: str, now_ms: int) -> str:
    """Return the stamp, its time drawn back to 60 s after the server's clock (`now_ms`, Unix milliseconds).

    What is no stamp says nothing of its time: it counts as written now.
    """
    if STAMP.match(stamp) is None:
        return f"{now_ms:013d}-0000-00000000"
    latest = now_ms + AHEAD_MS
    if int(stamp[:13]) <= latest:
        return stamp
    return f"{latest:013d}{stamp[13:]}"


def later(stamp: str, floor: str | None) -> str:
    """Return the stamp where it already follows `floor`; else the least stamp of the same phone that does.

    A write that saw another one is kept with a later stamp, whatever the clocks said, so that a third phone's
    write meets both in the same order wherever it arrives. A floor that is no stamp is one no phone can have followed.
    """
    if floor is None or not is_stamp(floor):
        return stamp if is_stamp(stamp) else f"{0:013d}-0000-00000000"
    if is_stamp(stamp) and stamp > floor:
        return stamp
    ms, count, node = int(floor[:13]), int(floor[14:18], 16), stamp[19:] if is_stamp(stamp) else "00000000"
    if count < _MOST_COUNTS or ms == LAST_MS:
        return f"{ms:013d}-{min(count + 1, _MOST_COUNTS):04x}-{node}"
    return f"{ms + 1:013d}-0000-{node}"
