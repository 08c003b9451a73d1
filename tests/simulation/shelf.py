"""The server's tables in memory, so that thousands of households can live in minutes.

A `Shelf` stands in for the part of Django's database layer that lawn.book and api use: rows asked for by household,
rows saved, transactions and savepoints that take back what was written, and the counter taken by UPDATE … RETURNING.
That it behaves as the database does is not believed but proved: a sample of seeds runs on SQLite as well, and the two
traces must be the same (test_shelf.py).
"""

import json
import uuid
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from itertools import product
from typing import Any

from django.db import IntegrityError, models, transaction
from django.db.models import Model
from django.db.models.base import ModelState
from django.db.models.fields.related_descriptors import ForwardManyToOneDescriptor

from lawn.book import access, devices, feed, pull
from lawn.book.digest import Sums
from lawn.models import Household

Columns = dict[str, Any]
Pk = tuple[Any, ...]
Rows = dict[Pk, Columns]


class Form:
    """How a model's rows are laid out: its columns, its key, what must stand once."""

    def __init__(self, model: type[Model]) -> None:
        fields = [field for field in model._meta.concrete_fields if field.column is not None]
        self.model = model
        self.names = [field.attname for field in fields]
        self.json = [field.attname for field in fields if isinstance(field, models.JSONField)]
        self.floats = [field.attname for field in fields if isinstance(field, models.FloatField)]
        key: Any = model._meta.pk
        named = getattr(key, "field_names", None) or [key.name]
        self.key = [model._meta.get_field(name).attname for name in named]  # type: ignore[union-attr]
        together = [rule for rule in model._meta.constraints if isinstance(rule, models.UniqueConstraint)]
        self.once = [[model._meta.get_field(name).attname for name in rule.fields] for rule in together]  # type: ignore[union-attr]

    def columns(self, row: Model) -> Columns:
        """Return a row as it is stored."""
        said = row.__dict__
        return self.stored({name: said[name] for name in self.names})

    def stored(self, found: Columns) -> Columns:
        """Return columns as the database keeps them: JSON as text, floats as floats."""
        for name in self.json:
            if name in found:
                found[name] = None if found[name] is None else json.dumps(found[name])
        for name in self.floats:
            if found.get(name) is not None:
                found[name] = float(found[name])
        return found

    def loaded(self, columns: Columns) -> Columns:
        """Return columns as they are read."""
        found = dict(columns)
        for name in self.json:
            if found[name] is not None:
                found[name] = json.loads(found[name])
        return found

    def row(self, columns: Columns) -> Model:
        """Return a model's instance, as if read from the database."""
        made = self.model.__new__(self.model)
        state = ModelState()
        state.adding, state.db = False, "default"
        made.__dict__.update(self.loaded(columns), _state=state)
        return made

    def key_of(self, columns: Columns) -> Pk:
        """Return the primary key's values."""
        return tuple(columns[name] for name in self.key)


class Shelf:
    """All tables, and what was done to them since each open savepoint began."""

    def __init__(self) -> None:
        self.tables: dict[type[Model], Rows] = {}
        self._forms: dict[type[Model], Form] = {}
        self._undo: list[tuple[type[Model], Pk, Columns | None]] = []
        # which key holds the values that may stand only once, by model and rule
        self._holders: dict[tuple[type[Model], int], dict[Pk, Pk]] = {}
        self._depth = 0
        self._after: list[Callable[[], object]] = []

    def form(self, model: type[Model]) -> Form:
        """Return the layout of a model."""
        found = self._forms.get(model)
        if found is None:
            found = self._forms[model] = Form(model)
        return found

    def rows_of(self, model: type[Model]) -> Rows:
        """Return a model's table."""
        return self.tables.setdefault(model, {})

    def write(self, model: type[Model], key: Pk, columns: Columns | None) -> None:
        """Put or take out one row, remembering what stood there; raise IntegrityError."""
        if columns is not None:
            for number, names in enumerate(self.form(model).once):
                holder = self._holders.setdefault((model, number), {}).get(tuple(columns[name] for name in names), key)
                if holder != key:
                    raise IntegrityError(f"UNIQUE constraint failed: {model.__name__} {names}")
        if self._depth:
            self._undo.append((model, key, self.rows_of(model).get(key)))
        self._put(model, key, columns)

    def _put(self, model: type[Model], key: Pk, columns: Columns | None) -> None:
        rows = self.rows_of(model)
        before = rows.get(key)
        for number, names in enumerate(self.form(model).once):
            holders = self._holders.setdefault((model, number), {})
            if before is not None:
                holders.pop(tuple(before[name] for name in names), None)
            if columns is not None:
                holders[tuple(columns[name] for name in names)] = key
        if columns is None:
            rows.pop(key, None)
        else:
            rows[key] = columns

    def insert(self, row: Model) -> None:
        """Store a new row; raise IntegrityError where its key is taken."""
        form = self.form(type(row))
        columns = form.columns(row)
        key = form.key_of(columns)
        if key in self.rows_of(type(row)):
            raise IntegrityError(f"{type(row).__name__} {key} is there already")
        self.write(type(row), key, columns)
        row._state.adding = False

    def save(self, row: Model, force_insert: bool = False, update_fields: Iterable[str] | None = None) -> None:
        """Do what Model.save does."""
        form = self.form(type(row))
        columns = form.columns(row)
        key = form.key_of(columns)
        before = self.rows_of(type(row)).get(key)
        if force_insert or before is None:
            return self.insert(row)
        names = form.names if update_fields is None else [form.model._meta.get_field(n).attname for n in update_fields]  # type: ignore[union-attr]
        self.write(type(row), key, {**before, **{name: columns[name] for name in names}})

    @contextmanager
    def atomic(self, *_said: object, **_named: object) -> Iterator[None]:
        """Open a transaction, or a savepoint within one."""
        mark = len(self._undo)
        self._depth += 1
        try:
            yield
        except BaseException:
            while len(self._undo) > mark:
                self._put(*self._undo.pop())
            if self._depth == 1:
                self._after.clear()
            raise
        else:
            if self._depth == 1:
                self._undo.clear()
        finally:
            self._depth -= 1
        if self._depth == 0:
            work, self._after = self._after, []
            for one in work:
                one()

    def on_commit(self, work: Callable[[], object], **_named: object) -> None:
        """Run something once the transaction is committed."""
        if self._depth:
            self._after.append(work)
        else:
            work()

    def image(self) -> dict[type[Model], Rows]:
        """Return all tables as they are, for a backup; rows are never changed in place."""
        return {model: dict(rows) for model, rows in self.tables.items()}

    def restore(self, image: dict[type[Model], Rows]) -> None:
        """Put all tables back to a backup."""
        self.tables, self._holders = {}, {}
        for model, rows in image.items():
            for key, columns in rows.items():
                self._put(model, key, columns)

    def plain(self, model: type[Model]) -> list[Columns]:
        """Return a model's rows as plain columns, for the checker."""
        form = self.form(model)
        return [form.loaded(columns) for columns in self.rows_of(model).values()]

    def one(self, model: type[Model], household: uuid.UUID, row: uuid.UUID) -> Columns:
        """Return one row of a household."""
        key = (row,) if model is Household else (household, row)
        return self.form(model).loaded(self.rows_of(model)[key])

    def take(self, household_id: uuid.UUID, most: int) -> tuple[int, Sums]:
        """Do what the counter's UPDATE … RETURNING does."""
        before = self.rows_of(Household).get((household_id,))
        if before is None:
            raise Household.DoesNotExist(str(household_id))
        after = {**before, "seq": before["seq"] + most}
        self.write(Household, (household_id,), after)
        return after["seq"], Sums(after["digest_a"], after["digest_b"])


_LOOKUPS: dict[str, Callable[[Any, Any], bool]] = {
    "exact": lambda value, wanted: bool(value == wanted),
    "in": lambda value, wanted: value in wanted,
    "gt": lambda value, wanted: value is not None and bool(value > wanted),
    "gte": lambda value, wanted: value is not None and bool(value >= wanted),
    "lt": lambda value, wanted: value is not None and bool(value < wanted),
    "lte": lambda value, wanted: value is not None and bool(value <= wanted),
    "isnull": lambda value, wanted: (value is None) == wanted,
}


class Query:
    """As much of a QuerySet as is used; anything else fails loudly by being missing."""

    def __init__(self, shelf: Shelf, model: type[Model]) -> None:
        self._shelf, self._form = shelf, shelf.form(model)
        self._model = model
        self._tests: list[tuple[str, Callable[[Any, Any], bool], Any]] = []
        self._order: tuple[str, ...] = ()
        self._shape: Callable[[Columns], Any] = self._form.row

    def _copy(self) -> "Query":
        made = Query.__new__(Query)
        made.__dict__.update(self.__dict__, _tests=list(self._tests))
        return made

    def filter(self, **wanted: Any) -> "Query":
        """Narrow by column lookups."""
        made = self._copy()
        for name, value in wanted.items():
            column, _, lookup = name.partition("__")
            if isinstance(value, Model):
                column, value = f"{column}_id", value.pk
            if column not in self._form.names:
                raise NotImplementedError(f"{self._model.__name__} cannot be asked by {name} here")
            test = _LOOKUPS[lookup or ("isnull" if value is None else "exact")]
            value = True if value is None else (dict.fromkeys(value) if lookup == "in" else value)
            made._tests.append((column, test, value))
        return made

    def exclude(self, **unwanted: Any) -> "Query":
        """Leave out what meets one column lookup."""
        made = self._copy()
        [(column, test, value)] = Query(self._shelf, self._model).filter(**unwanted)._tests
        made._tests.append((column, lambda found, asked: not test(found, asked), value))
        return made

    def order_by(self, *names: str) -> "Query":
        """Sort by columns."""
        made = self._copy()
        made._order = names
        return made

    def values_list(self, *names: str, flat: bool = False) -> "Query":
        """Give tuples of columns instead of rows."""
        made = self._copy()
        loaded = self._form.loaded
        made._shape = (
            (lambda row: loaded(row)[names[0]]) if flat else (lambda row: tuple(map(loaded(row).__getitem__, names)))
        )
        return made

    def only(self, *_names: str, **_how: bool) -> "Query":
        """Rows are read whole here."""
        return self

    select_related = select_for_update = all = iterator = only

    def _by_key(self, rows: Rows) -> list[Pk] | None:
        """Return the rows there are with the keys asked for; None where the question does not name whole keys."""
        said = {column: (test, value) for column, test, value in self._tests}
        parts = []
        for column in self._form.key:
            test, value = said.get(column, (None, None))
            if test is _LOOKUPS["exact"]:
                parts.append([value])
            elif test is _LOOKUPS["in"]:
                parts.append(list(value or ()))
            else:
                return None
        return [key for key in product(*parts) if key in rows]

    def _keys(self) -> list[Pk]:
        rows = self._shelf.rows_of(self._model)
        found = self._by_key(rows)
        if found is None:
            found = list(rows)
        for column, test, value in self._tests:
            found = [key for key in found if test(rows[key][column], value)]
        for name in reversed(self._order):
            column = self._model._meta.get_field(name.lstrip("-")).attname  # type: ignore[union-attr]
            found.sort(key=lambda key: rows[key][column], reverse=name.startswith("-"))
        return found

    def _found(self) -> list[Any]:
        rows = self._shelf.rows_of(self._model)
        return [self._shape(rows[key]) for key in self._keys()]

    def __iter__(self) -> Iterator[Any]:
        return iter(self._found())

    def __getitem__(self, part: slice) -> list[Any]:
        rows = self._shelf.rows_of(self._model)
        return [self._shape(rows[key]) for key in self._keys()[part]]

    def __len__(self) -> int:
        return len(self._keys())

    count = __len__

    def exists(self) -> bool:
        """Whether there is any."""
        return bool(self._keys())

    def first(self) -> Any:
        """Return the first, or None."""
        return next(iter(self[:1]), None)

    def last(self) -> Any:
        """Return the last, or None."""
        return next(iter(self[-1:]), None)

    def get(self, **wanted: Any) -> Any:
        """Return the only one; raise the model's DoesNotExist."""
        found = self.filter(**wanted)._found()
        if len(found) != 1:
            raise self._model.DoesNotExist(f"{len(found)} of {self._model.__name__}")  # type: ignore[attr-defined]
        return found[0]

    def update(self, **values: Any) -> int:
        """Write columns of all of them."""
        stored = self._form.stored({self._model._meta.get_field(name).attname: v for name, v in values.items()})  # type: ignore[union-attr]
        rows, keys = self._shelf.rows_of(self._model), self._keys()
        for key in keys:
            self._shelf.write(self._model, key, {**rows[key], **stored})
        return len(keys)

    def delete(self) -> tuple[int, dict[str, int]]:
        """Take all of them out."""
        keys = self._keys()
        for key in keys:
            self._shelf.write(self._model, key, None)
        return len(keys), {}


@contextmanager
def in_place(shelf: Shelf) -> Iterator[Shelf]:
    """Let the server's code find this shelf where its database was."""

    def rows(model: type[Model], household_id: uuid.UUID) -> Query:
        key = "id" if issubclass(model, Household) else "household_id"
        return Query(shelf, model).filter(**{key: household_id})

    def add(made: Sequence[Model]) -> None:
        for row in made:
            shelf.insert(row)

    def move(changes: Sequence[Model]) -> None:
        for row in changes:
            shelf.save(row, update_fields=["seq"])

    def save(row: Model, **said: Any) -> None:
        shelf.save(row, **said)

    def fresh(row: Model, **_said: Any) -> None:
        form = shelf.form(type(row))
        row.__dict__.update(form.loaded(shelf.rows_of(type(row))[form.key_of(row.__dict__)]))

    def related(descriptor: Any, row: Model) -> Model:
        field = descriptor.field
        return shelf.form(field.related_model).row(shelf.rows_of(field.related_model)[(row.__dict__[field.attname],)])

    swaps: list[tuple[Any, str, Any]] = [
        (access, "rows", rows),
        (access, "add", add),
        (access, "move", move),
        (feed, "_take", shelf.take),
        # one process and one request at a time: every read sees the same moment anyway
        (pull, "snapshot", shelf.atomic),
        (devices, "_unhurried", shelf.atomic),
        (transaction, "atomic", shelf.atomic),
        (transaction, "on_commit", shelf.on_commit),
        (Model, "save", save),
        (Model, "refresh_from_db", fresh),
        (ForwardManyToOneDescriptor, "get_object", related),
    ]
    with swapped(swaps):
        yield shelf


@contextmanager
def swapped(swaps: Iterable[tuple[Any, str, Any]]) -> Iterator[None]:
    """Put other things in the place of attributes for a while."""
    before = [(place, name, getattr(place, name)) for place, name, _ in swaps]
    for place, name, thing in swaps:
        setattr(place, name, thing)
    try:
        yield
    finally:
        for place, name, thing in reversed(before):
            setattr(place, name, thing)
