"""The database itself says no: to every range of the contract, to numbers given twice, to half-used invitations."""

from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
from django.core.management import call_command
from django.db import DataError, IntegrityError, models, transaction

from lawn.contract.table import contract
from lawn.models import (
    Entry,
    Household,
    Invitation,
    Member,
    Mower,
    Op,
    Person,
    Plan,
    Product,
    Spreader,
    Step,
    Stream,
    Zone,
)
from lawn.models.ids import new_id
from tests.factories import (
    NOW,
    EntryFactory,
    HouseholdFactory,
    KeeperFactory,
    MowerFactory,
    PersonFactory,
    PlanFactory,
    ProductFactory,
    SpreaderFactory,
    StepFactory,
    ZoneFactory,
)

KINDS: dict[str, Any] = contract()["kinds"]
SETTINGS: dict[str, Any] = {
    "zone": ZoneFactory,
    "product": ProductFactory,
    "spreader": SpreaderFactory,
    "mower": MowerFactory,
    "plan": PlanFactory,
    "step": StepFactory,
    "household": HouseholdFactory,
}


def refused(row: models.Model, **values: Any) -> bool:
    """Whether the database refuses to store these values on a row, past every check in Python."""
    key = {"pk": row.pk}
    try:
        with transaction.atomic():
            assert type(row)._default_manager.filter(**key).update(**values) == 1
    except (DataError, IntegrityError):
        return True
    return False


def fields() -> Iterator[tuple[str, str, dict[str, Any]]]:
    """Every field of every settings kind that has a factory, read from the contract."""
    for kind in SETTINGS:
        for rules in KINDS[kind]["groups"].values():
            for name, rule in rules.items():
                yield kind, name, rule


def edges() -> Iterator[Any]:
    """(kind, field, value, allowed) at and just beyond every edge of the contract."""
    for kind, name, rule in fields():
        for value, allowed in _edges_of(rule):
            yield pytest.param(kind, name, value, allowed, id=f"{kind}.{name}={str(value)[:12]}")


def _edges_of(rule: dict[str, Any]) -> list[tuple[Any, bool]]:
    if rule["type"] == "number":
        low, high = rule["low"], rule["high"]
        slack = (high - low) * 1e-6
        return [(low, True), (high, True), (low - slack, False), (high + slack, False)]
    if rule["type"] == "choice":
        return [(rule["choices"][-1], True), ("nonsense", False), ("", False)]
    if rule["type"] == "text":
        return [("x" * rule["max"], True), ("x" * (rule["max"] + 1), False)]
    return []


@pytest.mark.django_db
@pytest.mark.parametrize(("kind", "name", "value", "allowed"), list(edges()))
def test_the_database_keeps_the_contracts_ranges(kind: str, name: str, value: Any, allowed: bool) -> None:
    # the dial's two ends also watch each other, which has a test of its own
    free = {"lowest": None, "highest": None} if name in ("lowest", "highest") else {}
    row = SETTINGS[kind].create(**free)
    assert refused(row, **{name: value}) is not allowed


@pytest.mark.django_db
@pytest.mark.parametrize(("name", "value"), [("role", "owner"), ("units", "imperial"), ("name", "x" * 61)])
def test_the_database_keeps_a_members_choices(name: str, value: str) -> None:
    assert refused(KeeperFactory.create(), **{name: value})


def test_every_known_field_has_a_column_of_its_own() -> None:
    found = {"household": Household, "member": Member, "zone": Zone, "product": Product, "spreader": Spreader}
    found.update({"mower": Mower, "plan": Plan, "step": Step})
    for kind, model in found.items():
        columns = {field.name for field in model._meta.get_fields()}
        known = {name for rules in KINDS[kind]["groups"].values() for name in rules}
        assert known <= columns, kind


@pytest.mark.django_db
def test_a_dial_opens_upwards() -> None:
    row = SpreaderFactory.create(lowest=1, highest=24)
    assert refused(row, lowest=24.0)
    assert not refused(row, lowest=23.5)


@pytest.mark.django_db
def test_an_entry_is_of_a_known_kind() -> None:
    assert refused(EntryFactory.create(), kind="dance")


@pytest.mark.django_db
def test_an_email_signs_in_one_person_however_it_is_written() -> None:
    person = PersonFactory.create(email="Sam@Example.org")
    assert Person.objects.get_by_natural_key("SAM@example.ORG") == person
    with pytest.raises(IntegrityError), transaction.atomic():
        PersonFactory.create(email="sam@example.org")
    assert refused(person, email="Sam@example.org")


@pytest.mark.django_db
def test_a_person_is_in_a_household_once() -> None:
    keeper = KeeperFactory.create()
    with pytest.raises(IntegrityError), transaction.atomic():
        Member(household=keeper.household, person=keeper.person, received_at=NOW).save(force_insert=True)


@pytest.mark.django_db
def test_a_person_with_a_household_cannot_be_deleted() -> None:
    keeper = KeeperFactory.create()
    with pytest.raises(models.ProtectedError):
        keeper.person.delete()


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("field", "value"),
    [("seq", -1), ("digest_a", 2**32), ("digest_a", -1), ("digest_b", 2**32)],
)
def test_the_counter_and_the_digest_stay_in_range(field: str, value: int) -> None:
    assert refused(HouseholdFactory.create(), **{field: value})


def op_row(household: Household, **more: Any) -> Op:
    row = {
        "id": new_id(), "device_id": new_id(), "incarnation": new_id(), "dseq": 1, "member_id": new_id(), "hlc": "h",
        "schema": 1, "hash": "h", "content_hash": "c", "result": {}, "received_at": NOW, **more,
    }  # fmt: skip
    op = Op(household=household, **row)
    op.save(force_insert=True)
    return op


@pytest.mark.django_db
def test_a_number_of_a_line_is_used_once() -> None:
    first = op_row(HouseholdFactory.create())
    line = {"device_id": first.device_id, "incarnation": first.incarnation}
    with pytest.raises(IntegrityError), transaction.atomic():
        op_row(first.household, **line)
    assert op_row(first.household, **line, dseq=2).dseq == 2
    assert refused(first, dseq=0)


@pytest.mark.django_db
def test_a_line_is_not_acknowledged_below_nothing() -> None:
    line = Stream(household=HouseholdFactory.create(), device_id=new_id(), incarnation=new_id())
    line.save(force_insert=True)
    assert refused(line, acked_dseq=-1)


@pytest.mark.django_db
def test_an_invitation_ends_after_it_began_and_is_used_by_someone() -> None:
    household = HouseholdFactory.create()
    row = Invitation(
        token_hash="x", household=household, made_by=new_id(), created_at=NOW, expires_at=NOW + timedelta(days=7)
    )
    row.save()
    assert refused(row, expires_at=NOW)
    assert refused(row, used_at=NOW)
    assert refused(row, used_by=new_id())
    assert not refused(row, used_at=NOW, used_by=new_id())


@pytest.mark.django_db
def test_an_id_is_unique_only_within_its_household() -> None:
    zone = ZoneFactory.create()
    assert ZoneFactory.create(id=zone.id).household_id != zone.household_id
    with pytest.raises(IntegrityError), transaction.atomic():
        ZoneFactory.create(id=zone.id, household=zone.household)


@pytest.mark.django_db
def test_the_migrations_say_what_the_models_and_the_contract_say() -> None:
    call_command("makemigrations", "--check", "--dry-run", verbosity=0)


@pytest.mark.django_db
def test_ids_are_version_7_and_sort_by_their_making() -> None:
    made = [new_id() for _ in range(50)]
    assert {(one.version, one.variant) for one in made} == {(7, "specified in RFC 4122")}
    times = [one.int >> 80 for one in made]
    assert times == sorted(times)
    assert len(set(made)) == 50


def test_an_entry_has_no_hidden_rules_in_save() -> None:
    """Bulk writes pass save() by, so no model may decide anything there (style, Django)."""
    for model in (Entry, Household, Member, Op, Person, Product, Spreader, Zone):
        assert "save" not in vars(model)
