"""Writing the whole store into one file while the server runs."""

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

from django.conf import settings
from django.db import connection
from django.utils import timezone

from lawn.book.sync.pull import snapshot
from lawn.contract import kinds
from lawn.operations import Refused, history, room, sums, tables
from lawn.operations.archive import Draft
from lawn.photos import stock

Say = Callable[[str], None]

PHOTOS = "photos"


def backup(target: Path, *, replace: bool = False, say: Say = lambda line: None) -> dict[str, Any]:
    """Write everything into `target`; return the manifest. Raises Refused, and then leaves no file.

    All tables are read in one snapshot, which neither waits for writers nor makes them wait: on SQLite a reading
    transaction of the write-ahead log, on PostgreSQL one of REPEATABLE READ. Photo files are named by what is in
    them and never changed, so they are copied after it: what the rows name is there, perhaps a newer one besides.
    """
    if not target.parent.is_dir():
        raise Refused(f"There is no folder {target.parent}.")
    # the photos do not pack any smaller
    room.refuse_full(target.parent, sum(path.stat().st_size for _, path in stock.pictures()))
    with Draft(target, replace) as draft:
        with snapshot():
            manifest = _write_tables(draft, say)
        manifest["photos"] = _write_photos(draft)
        draft.finish(manifest)
    say(f"{target}: {manifest['tables_rows']} rows, {manifest['photos']} photos, {target.stat().st_size:,} bytes.")
    return manifest


def _write_tables(draft: Draft, say: Say) -> dict[str, Any]:
    seen = history.applied()
    if not seen.get("lawn"):
        raise Refused("The database has no tables yet: there is nothing to back up.")
    history.refuse_newer(seen, "The database")
    models = tables.models_of(history.apps_at(seen))
    rows = {name: draft.add_lines(f"tables/{name}.jsonl", tables.lines_of(model)) - 1 for name, model in _named(models)}
    households = {str(key): _said(counted) for key, counted in sums.count().items()}
    say(f"Read {len(rows)} tables of {len(households)} households.")
    return {
        "app": _app_version(),
        "made_at": timezone.now().isoformat(),
        "database": connection.vendor,
        "schema": kinds.schema(),
        "migrations": seen,
        "tables": rows,
        "tables_rows": sum(rows.values()),
        "households": households,
    }


def _named(models: list[Any]) -> list[tuple[str, Any]]:
    return [(model._meta.db_table, model) for model in models]


def _said(counted: sums.Counted) -> dict[str, Any]:
    return {"seq": counted.seq, "changes": counted.rows, "digest": counted.summed.text}


def _write_photos(draft: Draft) -> int:
    count = 0
    for household_id, path in stock.pictures():
        draft.add_file(f"{PHOTOS}/{household_id}/{path.name}", path)
        count += 1
    return count


def _app_version() -> str:
    with (Path(settings.BASE_DIR) / "pyproject.toml").open("rb") as file:
        return str(tomllib.load(file)["project"]["version"])
