"""The rows of the store as text, the same from SQLite and from PostgreSQL.

A table is lines of JSON: first the names of its columns, then a row a line, as a list. Times are ISO 8601 with their
offset, ids are written out, bytes are base64; JSON columns stand as they are.
"""

import base64
import json
import uuid
from collections.abc import Iterable, Iterator
from datetime import date, datetime
from typing import Any

from django.apps import apps as current_apps
from django.apps.registry import Apps
from django.db.models import Field, JSONField, Model

from lawn.operations import Refused

# Sessions stay out: an archive that is stolen must open no door, and one that was ended must not come back.
# Throttles count tries of the last minutes. The mark belongs to the database server, not to what is in it.
# Fetched weather is fetched again.
LEFT_OUT = ("django_session", "lawn_session", "lawn_throttlecount", "lawn_storemark", "lawn_weatherplace")
_CHUNK = 2000


def models_of(apps: Apps = current_apps) -> list[type[Model]]:
    """Return the model of every table that is kept, by table name."""
    found = [model for model in apps.get_models(include_auto_created=True) if model._meta.managed]
    kept = [model for model in found if not model._meta.proxy and model._meta.db_table not in LEFT_OUT]
    return sorted(kept, key=lambda model: model._meta.db_table)


def columns_of(model: type[Model]) -> list["Field[Any, Any]"]:
    """Return the stored columns of a model; a key of several columns is no column of its own."""
    return list(model._meta.concrete_fields)


def lines_of(model: type[Model], using: str = "default") -> Iterator[str]:
    """Yield a table as lines of text, without line ends."""
    names = [field.attname for field in columns_of(model)]
    yield json.dumps(names)
    rows = model._base_manager.using(using).order_by(*_key_of(model)).values_list(*names)
    for row in rows.iterator(chunk_size=_CHUNK):
        yield json.dumps(row, default=_text, ensure_ascii=False, separators=(",", ":"))


def _key_of(model: type[Model]) -> list[str]:
    """Return the columns that order a table: two archives of the same rows then say the same."""
    return [field.attname for field in model._meta.pk_fields]


def _text(value: object) -> str:
    if isinstance(value, uuid.UUID):
        return str(value)
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, bytes | memoryview):
        return base64.b64encode(value).decode("ascii")
    raise TypeError(f"{type(value).__name__} has no form in an archive")


def rows_from(model: type[Model], lines: Iterable[str]) -> Iterator[Model]:
    """Yield the rows that lines say, not yet saved; raise Refused for columns that this table has not."""
    whole = iter(lines)
    names = json.loads(next(whole))
    fields = {field.attname: field for field in columns_of(model)}
    unknown = [name for name in names if name not in fields]
    if unknown:
        raise Refused(f"The archive's table {model._meta.db_table} has columns unknown here: {', '.join(unknown)}.")
    for line in whole:
        pairs = zip(names, json.loads(line), strict=True)
        yield model(**{name: _value(fields[name], value) for name, value in pairs})


def _value(field: "Field[Any, Any]", value: Any) -> Any:
    return value if value is None or isinstance(field, JSONField) else field.to_python(value)


def store(model: type[Model], rows: Iterable[Model], using: str = "default") -> int:
    """Insert rows as they are, a chunk at a time; return how many."""
    count, chunk = 0, []
    for row in rows:
        chunk.append(row)
        if len(chunk) == _CHUNK:
            count += _insert(model, chunk, using)
            chunk = []
    return count + _insert(model, chunk, using)


def _insert(model: type[Model], rows: list[Model], using: str) -> int:
    if rows:
        model._base_manager.using(using).bulk_create(rows, batch_size=200)
    return len(rows)
