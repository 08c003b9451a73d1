"""Questions to the shelf: as much of Django's QuerySet as the server's code uses."""

from collections.abc import Callable, Iterator
from itertools import product
from typing import Any

from django.db.models import Model, Q

from tests.simulation.shelf import Columns, Pk, Rows, Shelf

_LOOKUPS: dict[str, Callable[[Any, Any], bool]] = {
    "exact": lambda value, wanted: bool(value == wanted),
    "in": lambda value, wanted: value in wanted,
    "gt": lambda value, wanted: value is not None and bool(value > wanted),
    "gte": lambda value, wanted: value is not None and bool(value >= wanted),
    "lt": lambda value, wanted: value is not None and bool(value < wanted),
    "lte": lambda value, wanted: value is not None and bool(value <= wanted),
    "isnull": lambda value, wanted: (value is None) == wanted,
}


def _meets(row: Columns, said: Q) -> bool:
    """Whether a row meets a condition put together with & and |."""

    def one(part: Any) -> bool:
        if isinstance(part, Q):
            return _meets(row, part)
        column, _, lookup = part[0].partition("__")
        return _LOOKUPS[lookup or "exact"](row[column], part[1])

    found = (all if said.connector == Q.AND else any)(one(part) for part in said.children)
    return found != said.negated


class Query:
    """As much of a QuerySet as is used; anything else fails loudly by being missing."""

    def __init__(self, shelf: Shelf, model: type[Model]) -> None:
        self._shelf, self._form = shelf, shelf.form(model)
        self._model = model
        self._tests: list[tuple[str, Callable[[Any, Any], bool], Any]] = []
        self._either: list[Q] = []
        self._order: tuple[str, ...] = ()
        self._shape: Callable[[Columns], Any] = self._form.row

    def _copy(self) -> "Query":
        made = Query.__new__(Query)
        made._shelf, made._form, made._model = self._shelf, self._form, self._model
        made._tests, made._order, made._shape = self._tests.copy(), self._order, self._shape
        made._either = self._either
        return made

    def filter(self, *either: Q, **wanted: Any) -> "Query":
        """Narrow by column lookups."""
        made = self._copy()
        made._either = [*self._either, *either]
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
        # the household, asked for first and true of all rows here, is looked at last
        for column, test, value in reversed(self._tests):
            found = [key for key in found if test(rows[key][column], value)]
        for either in self._either:
            found = [key for key in found if _meets(rows[key], either)]
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
