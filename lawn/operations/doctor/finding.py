"""What the doctor says."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import islice

_SHOWN = 5


@dataclass(frozen=True)
class Finding:
    """One sentence. `fault` is False for what is only good to know; `blocks` ends the looking."""

    says: str
    fault: bool = True
    blocks: bool = False


def some(sentences: Iterable[str]) -> Iterator[Finding]:
    """Yield the first few as findings, and one that counts the others."""
    rest = iter(sentences)
    yield from (Finding(sentence) for sentence in islice(rest, _SHOWN))
    more = sum(1 for _ in rest)
    if more:
        yield Finding(f"… and {more} more like this.")
