"""The steps of a household's plans as a calendar needs them: read from the book, in plain words."""

import uuid
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any

from lawn.book.merging import clock
from lawn.book.people import access
from lawn.engine.door import call
from lawn.models import Change, Member, Plan, Product, Step, Zone
from lawn.models.record import Kept
from lawn.units.registry import BY_KEY, back

WORDS = {
    "feed": "Feed",
    "pre_emergent": "Pre-emergent",
    "overseed": "Overseed",
    "lime": "Lime",
    "aerate": "Aerate",
    "soil_test": "Soil test",
    "other": "Job",
}
# What was removed is told as cancelled for this long after it was: calendars look far more often.
_CANCELLED = timedelta(days=30)
# Steps whose window ended longer ago are in the log, not in a calendar.
_PAST = timedelta(days=400)
MOST_STEPS = 1000
_LONGEST_FIGURE = 30
_MOST_NAMED = 20  # a thousand steps may name a thousand zones each
_UNITS = {"us": ("lb_kft2", "lb"), "metric": ("g_m2", "kg")}


@dataclass(frozen=True)
class Job:
    """A step: its days, how it stands ("planned", "done", "put_off", "removed"), its words, and its last change."""

    id: str
    title: str
    first: date
    last: date
    state: str
    lines: tuple[str, ...]
    changed: datetime
    sequence: int


@dataclass(frozen=True)
class _Book:
    """What a step's words are made of, by id, and each record's number in the order of changes."""

    plans: dict[str, Plan]
    zones: dict[str, Zone]
    products: dict[str, Product]
    numbers: dict[uuid.UUID, int]
    system: str


def jobs(member: Member, now: datetime) -> list[Job]:
    """Return the steps of a household's plans by their days, those lately removed among them."""
    since = (now.date() - _PAST).isoformat()
    steps = list(access.rows(Step, member.household_id).filter(to_on__gte=since).order_by("from_on", "id"))
    book = _read(member)
    found = [job for step in steps if (job := _job(step, book)) is not None]
    standing = [job for job in found if job.state != "removed" or job.changed > now - _CANCELLED]
    return standing[-MOST_STEPS:]


def _read(member: Member) -> _Book:
    of = member.household_id
    numbers = access.rows(Change, of).filter(t__in=("step", "plan", "zone", "product"))
    return _Book(
        plans=_first_of_each_year({str(row.id): row for row in access.rows(Plan, of)}),
        zones={str(row.id): row for row in access.rows(Zone, of)},
        products={str(row.id): row for row in access.rows(Product, of)},
        numbers=dict(numbers.values_list("id", "seq")),
        system=member.units or "us",
    )


def _first_of_each_year(plans: dict[str, Plan]) -> dict[str, Plan]:
    """Leave one plan a year: of two begun apart readers take the one written first. Removed ones stay, to say so."""
    years: set[str | None] = set()
    found = {}
    for name, plan in sorted(plans.items()):
        if plan.deleted or plan.starts_on not in years:
            found[name] = plan
        if not plan.deleted:
            years.add(plan.starts_on)
    return found


def _job(step: Step, book: _Book) -> Job | None:
    """A step as a job; None where it has no days that can be read, or no plan that counts."""
    plan = book.plans.get(step.plan_id or "")
    first, last = _day(step.from_on), _day(step.to_on)
    if plan is None or first is None or last is None:
        return None
    zones = [book.zones[one] for one in step.zone_ids or [] if one in book.zones]
    product = book.products.get(step.product_id or "")
    told: list[Kept] = [step, plan, *zones, *([product] if product else [])]
    return Job(
        id=str(step.id),
        title=_title(step, zones),
        first=first,
        last=max(first, last),
        state="removed" if step.deleted or plan.deleted else step.state or "planned",
        lines=tuple(_lines(step, zones, product, book.system)),
        changed=max(_changed(row) for row in told),
        sequence=max(book.numbers.get(row.id, 0) for row in told),
    )


def _day(written: str | None) -> date | None:
    try:
        return date.fromisoformat(written or "")
    except ValueError:
        return None


def _changed(row: Kept) -> datetime:
    """When a record was last written: the latest of its groups' stamps, or when it came."""
    stamps = [kept.get("hlc", "") for kept in row.versions.values()]
    known = [int(stamp[:13]) for stamp in stamps if clock.is_stamp(stamp)]
    return datetime.fromtimestamp(max(known) / 1000, UTC) if known else row.received_at


def _title(step: Step, zones: list[Zone]) -> str:
    said = step.title or WORDS.get(step.job or "", "Job")
    if not zones:
        return said
    return f"{said}: {', '.join(_names(zones)) if len(zones) <= 3 else f'{len(zones)} zones'}"


def _names(zones: list[Zone]) -> list[str]:
    return [zone.name or "Unnamed zone" for zone in zones]


def _lines(step: Step, zones: list[Zone], product: Product | None, system: str) -> list[str]:
    """Ground, product, rate and amount, each where it is known."""
    named = ", ".join(_names(zones)) if len(zones) <= _MOST_NAMED else f"{len(zones)} zones"
    found = [f"Zones: {named}"] if zones else []
    if product is None:
        return found
    found.append(f"Product: {product.name or 'Unnamed product'}")
    if step.rate_kg_m2:
        rate, _ = _UNITS[system if system in _UNITS else "us"]
        found.append(f"Rate: {_as_typed(step.rate_typed) or _in(step.rate_kg_m2, rate)}")
        found += _amount(step.rate_kg_m2, zones, product, system)
    return found


def _amount(rate_kg_m2: float, zones: list[Zone], product: Product, system: str) -> list[str]:
    """How much of it, and out of how many bags: the engine's answer; nothing where ground or label are not known."""
    areas = [zone.area_m2 for zone in zones]
    if not areas or None in areas or not product.net_kg:
        return []
    area_m2 = sum(area for area in areas if area is not None)
    answer: dict[str, Any] = call(
        "label.needed", {"area_m2": area_m2, "rate_kg_m2": rate_kg_m2, "net_kg": product.net_kg}
    )
    if "error" in answer:
        return []
    _, mass = _UNITS[system if system in _UNITS else "us"]
    bags = answer["value"]["bags"]
    of = f"{bags:.0f} bag{'' if bags == 1 else 's'} of {_in(product.net_kg, mass)}"
    return [f"Amount: {_in(answer['value']['mass_kg'], mass)}, out of {of}"]


def _as_typed(typed: Any) -> str:
    """A figure as somebody typed it: "3 lb/1,000 ft²"; "" where it has no form of ours: the book checks none here."""
    amount, unit = (typed.get("amount"), typed.get("unit")) if isinstance(typed, dict) else (None, None)
    if isinstance(amount, str) and len(amount) <= _LONGEST_FIGURE and isinstance(unit, str) and unit in BY_KEY:
        return f"{amount} {BY_KEY[unit].label}"
    return ""


def _in(si: float, unit: str) -> str:
    """A figure in a unit, to three digits or so."""
    value = back(si, unit)
    places = 0 if value >= 100 else 1 if value >= 10 else 2
    written = f"{value:,.{places}f}"
    return f"{written.rstrip('0').rstrip('.') if places else written} {BY_KEY[unit].label}"
