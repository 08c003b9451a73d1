"""Looking the whole store over: settings, database, every household's book, files.

Each finding is one sentence with what to do about it. Looking changes nothing; `repair` works out anew what follows
from other rows (the digest sums, stamps that no phone can have been given), tries ops again whose kind is known by
now, and never deletes.
"""

from collections.abc import Callable, Iterator
from contextlib import nullcontext

from django.utils import timezone

from lawn.book.sync import retry
from lawn.book.sync.pull import snapshot
from lawn.operations.doctor import book, database, files, installed
from lawn.operations.doctor.finding import Finding

Check = Callable[[], Iterator[Finding]]
# Without sound tables there is no sense in reading the rows.
_FIRST: list[Check] = [installed.findings, database.findings]
_THEN: list[Check] = [book.findings, files.findings]


def look() -> list[Finding]:
    """Return everything found, settings and database first."""
    found = [finding for check in _FIRST for finding in check()]
    if any(finding.blocks for finding in found):
        return found
    for check in _THEN:
        # one moment for all rows: a server that goes on writing must not look like a fault
        with snapshot() if check is book.findings else nullcontext():
            found.extend(check())
    return found


def repair() -> list[str]:
    """Mend what can be worked out anew; return what was done, a sentence each."""
    done = book.mend_stamps() + book.mend_sums()
    applied = retry.again(timezone.now())
    return (
        [*done, f"{applied} entries set aside as of an unknown kind are known by now and applied."] if applied else done
    )
