"""The bare SQL of the same rows: what the database alone takes for what a household's pushes and pulls write and read.

The rows are those the server itself wrote, read out of its file and written into a copy of its tables, constraints
and indexes included, 200 entries a transaction, under the same settings (WAL, synchronous=FULL).
"""

import json
import sqlite3
import tempfile
import time
from contextlib import closing
from pathlib import Path
from typing import Any

TABLES = ("lawn_entry", "lawn_change", "lawn_op")
AT_ONCE, PAGE = 200, 1_000
_PULL = """
SELECT c.seq, e.id, e.made_by, e.received_at, e.body, e.versions, e.overlays, e.extra
FROM lawn_change c JOIN lawn_entry e ON e.household_id = c.household_id AND e.id = c.id
WHERE c.household_id = ? AND c.t = 'entry' AND c.seq > ? ORDER BY c.seq LIMIT ?
"""


def times(file: Path) -> tuple[float, float]:
    """Return how many ms a server's entries, places and ops take to insert into a new file, and to read as JSON."""
    with tempfile.TemporaryDirectory(prefix="bare-") as folder, closing(_opened(Path(folder) / "bare.sqlite3")) as bare:
        rows = _copied(file, bare)
        began = time.perf_counter()
        _insert(bare, rows)
        inserted = time.perf_counter()
        _read(bare)
        return (inserted - began) * 1000, (time.perf_counter() - inserted) * 1000


def _opened(file: Path) -> sqlite3.Connection:
    bare = sqlite3.connect(file, isolation_level=None)
    bare.execute("PRAGMA journal_mode = WAL")
    bare.execute("PRAGMA synchronous = FULL")
    return bare


def _copied(file: Path, bare: sqlite3.Connection) -> dict[str, list[Any]]:
    """Make the same tables and indexes in the new file; the rows of the entries, by table, in the order written."""
    with closing(sqlite3.connect(f"file:{file}?mode=ro", uri=True)) as full:
        made = full.execute("SELECT sql, tbl_name FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type DESC")
        for statement, table in made.fetchall():
            if table in TABLES:
                bare.execute(statement)
        found = {table: full.execute(f"SELECT * FROM {table} ORDER BY rowid").fetchall() for table in TABLES}
    settings = len(found["lawn_change"]) - len(found["lawn_entry"])
    found["lawn_change"] = found["lawn_change"][settings:]
    return found


def _insert(bare: sqlite3.Connection, rows: dict[str, list[Any]]) -> None:
    for at in range(0, len(rows["lawn_op"]), AT_ONCE):
        bare.execute("BEGIN IMMEDIATE")
        for table, all_rows in rows.items():
            some = all_rows[at : at + AT_ONCE]
            marks = ",".join("?" * len(some[0]))
            bare.executemany(f"INSERT INTO {table} VALUES ({marks})", some)
        bare.execute("COMMIT")


def _read(bare: sqlite3.Connection) -> None:
    household, cursor = bare.execute("SELECT household_id FROM lawn_change LIMIT 1").fetchone()[0], 0
    while page := bare.execute(_PULL, (household, cursor, PAGE)).fetchall():
        cursor = page[-1][0]
        json.dumps([[seq, id_, by, at, *map(json.loads, kept)] for seq, id_, by, at, *kept in page])
