"""A database beside the real one, in which an archive is unpacked, brought up to date and checked.

It is a SQLite file in a folder of its own whatever the store is, so that nothing real is touched until all is known
to be sound, and an archive of older tables goes through the same migrations as an old store does.
"""

import tempfile
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.db import connections, transaction

from lawn.operations import Refused, epoch, history, sums, tables
from lawn.operations.archive import Archive

ALIAS = "staging"


@contextmanager
def unpacked(archive: Archive) -> Iterator[str]:
    """Unpack an archive's rows; yield the alias of the database. Raises Refused for what does not fit together."""
    with tempfile.TemporaryDirectory(prefix="evenfall-restore-") as folder, _database(Path(folder) / "staged.sqlite3"):
        _load(archive)
        history.migrate_on(ALIAS)
        _check(archive)
        epoch.begin_new(ALIAS)
        yield ALIAS


@contextmanager
def _database(path: Path) -> Iterator[None]:
    config: dict[str, Any] = {"ENGINE": "django.db.backends.sqlite3", "NAME": str(path)}
    configured: dict[str, Any] = connections.configure_settings({"default": dict(config), ALIAS: config})
    connections.settings[ALIAS] = configured[ALIAS]
    try:
        yield
    finally:
        connections[ALIAS].close()
        del connections[ALIAS]
        del connections.settings[ALIAS]


def _load(archive: Archive) -> None:
    seen: history.Applied = archive.manifest["migrations"]
    history.migrate_to(seen, ALIAS)
    named = {model._meta.db_table: model for model in tables.models_of(history.apps_at(seen))}
    with transaction.atomic(using=ALIAS):
        for part in archive.names("tables"):
            name = Path(part).stem
            if name not in named:
                raise Refused(f"The archive has a table unknown here: {name}.")
            _load_table(archive, part, named[name])


def _load_table(archive: Archive, part: str, model: Any) -> None:
    model._base_manager.using(ALIAS).all()._raw_delete(ALIAS)  # migrations may have put rows there
    count = tables.store(model, tables.rows_from(model, archive.lines(part)), ALIAS)
    said = archive.manifest["tables"].get(model._meta.db_table)
    if count != said:
        raise Refused(f"The archive should hold {said} rows of {model._meta.db_table} and holds {count}.")


def _check(archive: Archive) -> None:
    """Raise Refused where a book's changes are not those that were backed up, by count and digest."""
    connections[ALIAS].check_constraints()
    found = sums.count(ALIAS)
    said = archive.manifest["households"]
    if {str(key) for key in found} != set(said):
        raise Refused("The archive does not hold the households it says it holds.")
    for key, counted in found.items():
        if (counted.rows, counted.summed.text) != (said[str(key)]["changes"], said[str(key)]["digest"]):
            raise Refused(f"The archive's changes of household {key} are not those that were backed up.")
        _settle_sums(key, counted)


def _settle_sums(household: uuid.UUID, counted: sums.Counted) -> None:
    """Store the sums as the rows have them: a store whose sums had gone wrong comes back right."""
    from lawn.models import Household

    a, b = counted.summed
    Household.objects.using(ALIAS).filter(id=household).update(digest_a=a, digest_b=b)
