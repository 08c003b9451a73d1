"""A short proof that a phone holds exactly the server's change rows.

Two 32-bit FNV-1a hashes of "t|id|seq" are summed over all rows modulo 2**32. Sums can be kept up to date row by
row, in any order, on both sides. The hash is described in the Internet-Draft draft-eastlake-fnv ("The FNV
Non-Cryptographic Hash Algorithm"); the shared vectors are in fixtures/sync/digest.json.
"""

from typing import NamedTuple

_PRIME = 16777619
_BASIS_A = 2166136261
_BASIS_B = 2166136261 ^ 0x5BD1E995
_MASK = 0xFFFF_FFFF


class Sums(NamedTuple):
    """The two running sums, each 0 .. 2**32 - 1."""

    a: int = 0
    b: int = 0

    @property
    def text(self) -> str:
        """The sums as 16 hex digits, the first sum first."""
        return f"{self.a:08x}{self.b:08x}"


def fnv1a(text: str, basis: int) -> int:
    """Return the 32-bit FNV-1a hash of the text in UTF-8, begun at `basis`."""
    value = basis
    for byte in text.encode():
        value = ((value ^ byte) * _PRIME) & _MASK
    return value


def of_row(t: str, record_id: str, seq: int) -> Sums:
    """Return the two hashes of one change row."""
    text = f"{t}|{record_id}|{seq}"
    return Sums(fnv1a(text, _BASIS_A), fnv1a(text, _BASIS_B))


def with_row(sums: Sums, row: Sums) -> Sums:
    """Return the sums with one row more."""
    return Sums((sums.a + row.a) & _MASK, (sums.b + row.b) & _MASK)


def without_row(sums: Sums, row: Sums) -> Sums:
    """Return the sums with one row less."""
    return Sums((sums.a - row.a) & _MASK, (sums.b - row.b) & _MASK)


def bucket_of(t: str, record_id: str) -> str:
    """Return the 8 hex digits that say in which bucket a record is looked for when a book is repaired."""
    return f"{fnv1a(f'{t}|{record_id}', _BASIS_A):08x}"
