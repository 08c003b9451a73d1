"""Rows for tests, made by factory-boy. Household and members go through the book's own factories, as in life."""

from datetime import UTC, datetime
from typing import Any

import factory
from factory.django import DjangoModelFactory

from lawn.book.people import devices, membership
from lawn.models import Device, Entry, Household, Member, Mower, Person, Plan, Product, Spreader, Step, Zone
from lawn.models.ids import new_id

NOW = datetime(2026, 7, 1, 18, 0, tzinfo=UTC)  # after every moment the tests write


class PersonFactory(DjangoModelFactory[Person]):
    """A person who can sign in; everyone's password is `password`."""

    class Meta:
        model = Person

    email = factory.Sequence(lambda number: f"person{number}@example.org")
    name = factory.Sequence(lambda number: f"Person {number}")
    password = "four wet spaniels"

    @classmethod
    def _create(cls, model_class: type[Person], *args: Any, **kwargs: Any) -> Person:
        return Person.objects.create_user(*args, **kwargs)


class KeeperFactory(factory.Factory[Member]):
    """A new household's keeper; `.household` is the household."""

    class Meta:
        model = Member

    person = factory.SubFactory(PersonFactory)
    name = factory.Sequence(lambda number: f"Household {number}")
    units = "us"
    now = NOW

    @classmethod
    def _create(cls, model_class: type[Member], *args: Any, **kwargs: Any) -> Member:
        return membership.create_household(*args, **kwargs)


class MemberFactory(factory.Factory[Member]):
    """One more member of a household given by `household_id`."""

    class Meta:
        model = Member

    person = factory.SubFactory(PersonFactory)
    now = NOW

    @classmethod
    def _create(cls, model_class: type[Member], *args: Any, **kwargs: Any) -> Member:
        return membership.add_member(*args, **kwargs)


class DeviceFactory(factory.Factory[Device]):
    """A phone of a member."""

    class Meta:
        model = Device

    member = factory.SubFactory(KeeperFactory)
    name = "Test phone"
    now = NOW

    @classmethod
    def _create(cls, model_class: type[Device], *args: Any, **kwargs: Any) -> Device:
        return devices.register(*args, **kwargs)


class HouseholdFactory(DjangoModelFactory[Household]):
    """A bare household row, for tests of the database itself."""

    class Meta:
        model = Household

    name = "Alder Bend"
    received_at = NOW


class _RecordFactory(DjangoModelFactory[Any]):
    class Meta:
        abstract = True

    household = factory.SubFactory(HouseholdFactory)
    id = factory.LazyFunction(new_id)
    received_at = NOW


class ZoneFactory(_RecordFactory):
    """A zone row, past the book: for tests of the database itself."""

    class Meta:
        model = Zone

    name = "Street verge"
    area_m2 = 120.0
    method = "shapes"


class ProductFactory(_RecordFactory):
    """A product row, past the book."""

    class Meta:
        model = Product

    name = "Plain 23-0-9"
    sort = "fertilizer"
    net_kg = 20.0
    n_percent = 23.0


class SpreaderFactory(_RecordFactory):
    """A spreader row, past the book."""

    class Meta:
        model = Spreader

    name = "Rotary"
    sort = "rotary"
    lowest = 1.0
    highest = 24.0
    step = 0.5


class PlanFactory(_RecordFactory):
    """A season plan row, past the book."""

    class Meta:
        model = Plan

    starts_on = "2026-01-01"
    southern = False


class StepFactory(_RecordFactory):
    """A row of a step of a plan, past the book."""

    class Meta:
        model = Step

    job = "feed"
    from_on = "2026-05-04"
    to_on = "2026-05-10"


class MowerFactory(_RecordFactory):
    """A mower row, past the book."""

    class Meta:
        model = Mower

    name = "Push mower"
    lowest_mm = 25.0
    highest_mm = 90.0


class EntryFactory(_RecordFactory):
    """A log entry row, past the book."""

    class Meta:
        model = Entry

    body = factory.LazyFunction(lambda: {"kind": "observation", "occurred_at": NOW.isoformat(), "text": "Dew"})
    kind = "observation"
    occurred_at = NOW
