"""The database's own health, and the settings in force on a connection as the server has it (S12)."""

from collections.abc import Iterator
from typing import Any

from django.db import DatabaseError, connection

from lawn.operations import epoch, history
from lawn.operations.doctor.finding import Finding, some

_OLDEST_POSTGRESQL = 140000  # the oldest that Django 5.2 works with (its release notes, "PostgreSQL 14 and higher")
_ROLLED_BACK_LATE = "An entry acknowledged just before a power cut may be lost."


def findings() -> Iterator[Finding]:
    """Yield what is wrong with the database; a blocking finding where its rows cannot be read."""
    try:
        yield from _tables()
        yield from _sqlite() if connection.vendor == "sqlite" else _postgresql()
    except DatabaseError as trouble:
        yield Finding(
            f"The database cannot be read: {trouble}. See that it runs and DATABASE_URL is right.", blocks=True
        )


def _tables() -> Iterator[Finding]:
    newer = history.unknown(history.applied())
    if newer:
        yield Finding(f"The database is of a newer version ({newer[-1]}). Update the program.", blocks=True)
    missing = history.missing()
    if missing:
        yield Finding(f"{len(missing)} migrations wait ({missing[-1]}). Say: manage.py migrate", blocks=True)


def _one(statement: str) -> Any:
    with connection.cursor() as cursor:
        cursor.execute(statement)
        row = cursor.fetchone()
        return row[0] if row else None


def _all(statement: str) -> list[tuple[Any, ...]]:
    with connection.cursor() as cursor:
        cursor.execute(statement)
        return list(cursor.fetchall())


def _sqlite() -> Iterator[Finding]:
    if _one("PRAGMA journal_mode") != "wal":
        yield Finding("The SQLite file is not in WAL mode: pulls wait for pushes. Put it on a disk of this machine.")
    if _one("PRAGMA synchronous") < 2:
        yield Finding(f"SQLite's synchronous is below FULL. {_ROLLED_BACK_LATE} Leave it as the program sets it.")
    if not _one("PRAGMA foreign_keys"):
        yield Finding("SQLite's foreign_keys are off. Leave them as the program sets them.")
    if _one("PRAGMA busy_timeout") < 5000:
        yield Finding("SQLite gives up on a busy file in under 5 s. Take the timeout out of DATABASE_URL.")
    yield from some(
        f"SQLite's own check says: {row[0]}. Make a copy of the file, then restore the newest backup."
        for row in _all("PRAGMA integrity_check(20)")
        if row[0] != "ok"
    )
    yield from some(
        f"A row of {row[0]} points to a row of {row[2]} that is not there. Restore the newest backup, or ask for help."
        for row in _all("PRAGMA foreign_key_check")
    )


def _postgresql() -> Iterator[Finding]:
    if int(_one("SHOW server_version_num")) < _OLDEST_POSTGRESQL:
        yield Finding(f"PostgreSQL {_one('SHOW server_version')} is too old. Update it to 14 or newer.")
    for name in ("fsync", "full_page_writes", "synchronous_commit"):
        if _one(f"SHOW {name}") in ("off", "local"):
            yield Finding(f"PostgreSQL's {name} is off. {_ROLLED_BACK_LATE} Turn it on in postgresql.conf.")
    for name in ("idle_in_transaction_session_timeout", "lock_timeout"):
        if _one(f"SHOW {name}") == "0":
            yield Finding(f"PostgreSQL's {name} is not in force: one stuck session could hold a household up for ever.")
    if _one("SHOW transaction_isolation") != "read committed":
        yield Finding("PostgreSQL's default_transaction_isolation is not read committed. Set it so for this database.")
    if _one("SHOW server_encoding") != "UTF8":
        yield Finding("The database does not store UTF-8. Make a new one with ENCODING 'UTF8' and restore a backup.")
    if _one("SELECT pg_is_in_recovery()"):
        yield Finding("This PostgreSQL is a standby and takes no writes. Point DATABASE_URL at the primary.")
    elif epoch.mark_of(connection) is None:
        yield Finding("PostgreSQL does not say which server it is: a failover would go unnoticed. After one, say: "
                      "manage.py doctor --new-epoch")  # fmt: skip
    yield from some(
        f"The constraint {row[0]} is not validated. Say: ALTER TABLE … VALIDATE CONSTRAINT {row[0]}"
        for row in _all("SELECT conname FROM pg_constraint WHERE NOT convalidated ORDER BY conname")
    )
