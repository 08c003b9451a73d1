"""Content-Range of a chunk: `bytes first-last/total` (RFC 9110, section 14.4), sent with PUT as section 14.5 allows."""

import re
from dataclasses import dataclass

from api.errors import Refusal

# No number of ours has more digits; a longer one is not worth reading.
_RANGE = re.compile(r"\A *bytes +([0-9]{1,10})-([0-9]{1,10})/([0-9]{1,10}) *\Z", re.IGNORECASE)
_ALLOWED = 'write "bytes first-last/total", such as "bytes 0-262143/1048576"'


@dataclass(frozen=True)
class Range:
    """The first and the last byte of a chunk, counted from 0, and the bytes of the whole."""

    first: int
    last: int
    total: int

    @property
    def length(self) -> int:
        """How many bytes the chunk has."""
        return self.last - self.first + 1


def read_range(header: str | None) -> Range:
    """Return what the header says; raise 400 for one that is missing, unreadable or contradicts itself.

    A total of `*` (not yet known) is refused too: a phone knows how large its picture is.
    """
    if header is None:
        raise _wrong("The header Content-Range is missing")
    found = _RANGE.match(header)
    if found is None:
        raise _wrong("The header Content-Range cannot be read")
    said = Range(*(int(number) for number in found.groups()))
    # RFC 9110, 14.4: invalid where last-pos is less than first-pos, or complete-length not greater than last-pos.
    if said.last < said.first or said.total <= said.last:
        raise _wrong("The header Content-Range contradicts itself")
    return said


def _wrong(what: str) -> Refusal:
    return Refusal(400, "bad_range", f"{what}: {_ALLOWED}.")
