"""The only way to a household's rows, so that isolation is proved once (P10, S13).

Nothing else in lawn.book or api asks a model's manager for a record: a row is reached by naming its household, and a
household by showing a person who is its member now.
"""

import uuid
from collections.abc import Collection, Mapping, Sequence
from functools import cache
from typing import Any, TypeVar

from django.db import DEFAULT_DB_ALIAS, connection, connections
from django.db.backends.base.base import BaseDatabaseWrapper
from django.db.models import BigIntegerField, CharField, Func, JSONField, Model, QuerySet, TextField, Value
from django.db.models.functions import Cast, Coalesce

from lawn.models import CalendarLink, Change, Device, Household, Invitation, Member, ParkedOp, Person
from lawn.web import sessions

Row = TypeVar("Row", bound=Model)
Columns = Mapping[str, Any]  # of one row, by the names its model gives them
# a household, the member who looks into it, and the session (its hash) they look by
Place = tuple[uuid.UUID, uuid.UUID, str]


class NoAccess(Exception):
    """The household, device or invitation does not exist, as far as this person may know."""


def rows(model: type[Row], household_id: uuid.UUID) -> QuerySet[Row]:
    """Return the rows of one household."""
    key = "id" if issubclass(model, Household) else "household_id"
    return model._default_manager.filter(**{key: household_id})


def add(rows_made: Sequence[Model]) -> None:
    """Store new rows of one model at once, each of which names its household and its key."""
    if rows_made:
        insert(type(rows_made[0]), [vars(row) for row in rows_made])
    for row in rows_made:
        row._state.adding = False


def insert(model: type[Model], made: Sequence[Columns]) -> None:
    """Store new rows of a model at once, each given by all its columns, its household and its key among them.

    One statement run with the values of each row: to make an instance of each and have bulk_create build SQL anew for
    every row costs a push more than all else it does.
    """
    if not made:
        return
    fields, statement = _insertion(model)
    real = connections[DEFAULT_DB_ALIAS]  # itself, not its proxy, which looks it up at each touch
    columns = [_prepared(field, [row[field.attname] for row in made], real) for field in fields]
    with real.cursor() as cursor:
        cursor.executemany(statement, list(zip(*columns, strict=True)))


def _prepared(field: Any, values: list[Any], real: BaseDatabaseWrapper) -> list[Any]:
    """Return one column's values as the database takes them; what all rows of a push share is worked out once."""
    first = values[0]
    if all(value is first for value in values):
        return [field.get_db_prep_save(first, real)] * len(values)
    return [field.get_db_prep_save(value, real) for value in values]


@cache
def _insertion(model: type[Model]) -> tuple[list[Any], str]:
    """Return a model's columns and the statement that stores one row of it."""
    fields = [field for field in model._meta.concrete_fields if field.column]
    quoted = ", ".join(connection.ops.quote_name(field.column) for field in fields if field.column)
    marks = ", ".join("%s" for _ in fields)
    table = connection.ops.quote_name(model._meta.db_table)
    return fields, f"INSERT INTO {table} ({quoted}) VALUES ({marks})"  # noqa: S608


class _Bytes(Func):
    """The bytes of a column written out as text."""

    function = "OCTET_LENGTH"
    output_field = BigIntegerField()

    def as_sqlite(self, compiler: Any, connection: Any, **more: Any) -> Any:
        """Count as older SQLite can."""
        return self.as_sql(compiler, connection, template="LENGTH(CAST(%(expressions)s AS BLOB))", **more)


@cache
def _weighing(model: type[Model]) -> tuple[Any, int]:
    """Return what counts the bytes of a model's long columns, and what its others come to at most when written out."""
    fields = [field for field in model._meta.concrete_fields if field.column]
    long = [field for field in fields if isinstance(field, JSONField | CharField)]
    counted: Any = Value(0)
    for field in long:
        counted += Coalesce(_Bytes(Cast(field.attname, TextField())), Value(0))
    return counted, 300 + sum(len(field.attname) + 40 for field in fields)


def sizes(model: type[Model], household_id: uuid.UUID, ids: Collection[uuid.UUID]) -> dict[uuid.UUID, int]:
    """Return about how many bytes each of some records takes when it travels, rather too many; none is read."""
    counted, more = _weighing(model)
    found = rows(model, household_id).filter(id__in=ids).annotate(bytes_=counted).values_list("id", "bytes_")
    return {record_id: size + more for record_id, size in found}


def move(changes: Sequence[Change]) -> None:
    """Give change rows that exist their new numbers, all at once; a number already taken is an IntegrityError (S7)."""
    if changes:
        Change._default_manager.bulk_create(
            changes, update_conflicts=True, unique_fields=["household", "t", "id"], update_fields=["seq"]
        )


def member_of(person: Person, household_id: uuid.UUID) -> Member:
    """Return the person's active membership; raise NoAccess where there is none."""
    found = rows(Member, household_id).filter(person_id=person.id, active=True).first()
    if found is None:
        raise NoAccess("household")
    return found


def as_now(member: Member) -> Member:
    """Return an active membership as it stands now that the household's lock is held (A11).

    What a request read before it waited for the lock may have ended meanwhile: then NoAccess is raised.
    """
    found = rows(Member, member.household_id).filter(id=member.id, active=True).first()
    if found is None:
        raise NoAccess("household")
    return found


def keeper_now(member: Member, otherwise: str) -> Member:
    """Return a keeper as they stand now that the lock is held; raise PermissionError where they are none any more."""
    found = rows(Member, member.household_id).filter(id=member.id).first()
    if found is None or not found.is_keeper:
        raise PermissionError(otherwise)
    return found


def former_member_of(person: Person, household_id: uuid.UUID) -> Member:
    """Return the place of a person who is no longer in the household; raise NoAccess where there is none."""
    found = rows(Member, household_id).filter(person_id=person.id, active=False).first()
    if found is None:
        raise NoAccess("household")
    return found


def memberships(person: Person) -> QuerySet[Member]:
    """Return the person's active memberships with their households, oldest first."""
    return Member.objects.filter(person_id=person.id, active=True).select_related("household").order_by("id")


def device_of(member: Member, device_id: uuid.UUID) -> Device:
    """Return the member's own device; raise NoAccess for another's, an unknown or a signed-out one."""
    found = rows(Device, member.household_id).filter(id=device_id, member_id=member.id, closed_at=None).first()
    if found is None:
        raise NoAccess("device")
    return found


def device_left_with(member: Member, device_id: uuid.UUID) -> Device:
    """Return the phone of a former member, signed out or not: what it still holds may be handed in (S22)."""
    found = rows(Device, member.household_id).filter(id=device_id, member_id=member.id).first()
    if found is None:
        raise NoAccess("device")
    return found


def households_with_parked(code: str) -> list[uuid.UUID]:
    """Return the households in which ops wait that were parked for this reason: a directory, it shows no rows."""
    found = ParkedOp.objects.filter(why__code=code, pending=False, settled_at=None)
    return list(found.order_by("household_id").values_list("household_id", flat=True).distinct())


def every_household() -> list[uuid.UUID]:
    """Return every household: a directory, it shows no rows."""
    return list(Household.objects.order_by("id").values_list("id", flat=True))


def heads(household_ids: Collection[uuid.UUID]) -> dict[uuid.UUID, int]:
    """Return the newest change number of each of some households, in one query by key."""
    return dict(Household.objects.filter(id__in=household_ids).values_list("id", "seq"))


def still_here(places: Collection[Place]) -> set[Place]:
    """Return those places whose member is in the household now and whose session still lives: two queries for all.

    For what stays open longer than a request: it is asked before each message that goes out.
    """
    keys = [(household_id, member_id) for household_id, member_id, _ in places]
    found = set(Member.objects.filter(pk__in=keys, active=True).values_list("household_id", "id"))
    living = sessions.living({session for _, _, session in places})
    return {place for place in places if place[:2] in found and place[2] in living}


def invitation_by_hash(token_hash: str) -> Invitation:
    """Return an invitation with its household, found by what only its holder knows; raise NoAccess."""
    found = Invitation.objects.select_related("household").filter(token_hash=token_hash).first()
    if found is None:
        raise NoAccess("invitation")
    return found


def calendar_member(token_hash: str) -> Member:
    """Return the member whose calendar link this is, with their household; raise NoAccess where none reads by it now.

    A link goes with its membership: asked at each look.
    """
    link = CalendarLink.objects.filter(token_hash=token_hash).first()
    if link is None:
        raise NoAccess("calendar")
    found = rows(Member, link.household_id).filter(id=link.member_id, active=True).select_related("household").first()
    if found is None:
        raise NoAccess("calendar")
    return found
