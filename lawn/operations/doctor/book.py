"""Each household's book held against itself: changes, records, numbers, digests, the phones' lines of ops."""

import uuid
from collections.abc import Iterator
from typing import Any

from django.db import transaction
from django.db.models import BigIntegerField, Exists, F, OuterRef, QuerySet
from django.db.models.fields.json import KT
from django.db.models.functions import Cast
from django.utils import timezone

from lawn.book.merging import stamps
from lawn.book.people import access
from lawn.book.sync.record import ALL_MODELS
from lawn.models import Change, Device, Household, Member, Op, ParkedOp, Stream
from lawn.operations import sums
from lawn.operations.doctor.finding import Finding, some

_HELP = "Restore the newest backup: the phones send again what it lacks."


def findings() -> Iterator[Finding]:
    """Yield what does not agree."""
    yield from some(_sums_wrong())
    yield from some(_numbers_wrong())
    for t in ALL_MODELS:
        yield from some(f"Household {row[0]}: the change of {t} {row[1]} has no record. {_HELP}" for row in _bare(t))
        yield from some(f"Household {row[0]}: {t} {row[1]} is not among the changes. {_HELP}" for row in _unlisted(t))
    yield from some(
        f"Household {household}: the changes name a kind unknown here, {t}. Update the program."
        for household, t in Change.objects.exclude(t__in=ALL_MODELS).values_list("household_id", "t").distinct()
    )
    yield from some(_stamps_wrong())
    yield from some(_lines_wrong())
    yield from _waiting()


def _sums_wrong() -> Iterator[str]:
    for key, counted in sums.count().items():
        if counted.stored != counted.summed:
            yield (
                f"Household {key}: the digest stored, {counted.stored.text}, is not that of its changes, "
                f"{counted.summed.text}. Say: manage.py doctor --repair"
            )


def _numbers_wrong() -> Iterator[str]:
    """The database itself sees to it that no number is given twice (change_seq_once)."""
    beyond = Change.objects.filter(seq__gt=F("household__seq")).values_list("household_id", "seq", "household__seq")
    for household, seq, counter in beyond.order_by("household_id", "seq"):
        yield f"Household {household}: a change has the number {seq}, beyond the counter {counter}. {_HELP}"
    answered = Op.objects.exclude(result__seq=None).annotate(number=Cast(KT("result__seq"), BigIntegerField()))
    later = answered.filter(number__gt=F("household__seq")).values_list("household_id", "id")
    for household, op in later.order_by("household_id", "id"):
        yield f"Household {household}: op {op} was answered with a number beyond the counter. {_HELP}"


def _records(t: str, household: str, record: str) -> "QuerySet[Any]":
    """Return the records of a kind with this household and id; a household is its own record."""
    model: Any = ALL_MODELS[t]
    keys = (
        {"id": OuterRef(record)}
        if model is Household
        else {"household_id": OuterRef(household), "id": OuterRef(record)}
    )
    found: QuerySet[Any] = model._base_manager.filter(**keys)
    return found


def _bare(t: str) -> "QuerySet[Any, Any]":
    """Return the changes of a kind that have no record."""
    changes = Change.objects.filter(t=t).exclude(Exists(_records(t, "household_id", "id")))
    return changes.order_by("household_id", "id").values_list("household_id", "id")


def _unlisted(t: str) -> "QuerySet[Any, Any]":
    """Return the records of a kind that no change leads to: no phone will ever hear of them."""
    model: Any = ALL_MODELS[t]
    owner = "id" if model is Household else "household_id"
    changes = Change.objects.filter(household_id=OuterRef(owner), t=t, id=OuterRef("id"))
    records = model._base_manager.exclude(Exists(changes))
    found: QuerySet[Any, Any] = records.order_by(owner, "id").values_list(owner, "id")
    return found


def _lines_wrong() -> Iterator[str]:
    """Yield ops that their phone's line does not know of, and phones of nobody.

    A line may stand beyond its highest op: an op that came again under another number is kept once.
    """
    line = Stream.objects.filter(
        household_id=OuterRef("household_id"), device_id=OuterRef("device_id"), incarnation=OuterRef("incarnation")
    )
    ahead = Op.objects.exclude(Exists(line.filter(acked_dseq__gte=OuterRef("dseq"))))
    for household, op, dseq in ahead.order_by("household_id", "id").values_list("household_id", "id", "dseq"):
        yield f"Household {household}: op {op} has the number {dseq}, which its phone's line has not reached. {_HELP}"
    member = Member.objects.filter(household_id=OuterRef("household_id"), id=OuterRef("member_id"))
    for device in Device.objects.exclude(Exists(member)).order_by("household_id", "id"):
        yield f"Household {device.household_id}: phone {device.id} belongs to no member. {_HELP}"


def _stamps_wrong() -> Iterator[str]:
    now = timezone.now()
    for household in access.every_household():
        for t, record in stamps.wrong_in(household, now):
            yield (
                f"Household {household}: {t} {record} has a stamp that no phone can have been given. "
                "Say: manage.py doctor --repair"
            )


def mend_stamps() -> list[str]:
    """Give wrong stamps the time at which their writes came, a household at a time; return what was done."""
    mended = {household: stamps.mend(household, timezone.now()) for household in access.every_household()}
    return [
        f"Household {household}: {count} {'record has' if count == 1 else 'records have'} sound stamps again; phones "
        "hear of it at their next sync."
        for household, count in mended.items()
        if count
    ]


def _waiting() -> Iterator[Finding]:
    parked = ParkedOp.objects.filter(settled_at=None).count()
    if parked:
        yield Finding(f"{parked} entries are set aside, each with its reason (/admin/, household).", fault=False)


def mend_sums() -> list[str]:
    """Store the digest sums as the changes have them, a household at a time; return what was done."""
    wrong = [key for key, counted in sums.count().items() if counted.stored != counted.summed]
    return [said for said in map(_mend, wrong) if said]


def _mend(household_id: uuid.UUID) -> str | None:
    with transaction.atomic():
        household = Household.objects.filter(id=household_id)
        household.update(seq=F("seq"))  # the lock that every push takes first (S7)
        counted = sums.count(household_id=household_id)[household_id]
        if counted.stored == counted.summed:
            return None
        household.update(digest_a=counted.summed.a, digest_b=counted.summed.b)
    return f"Household {household_id}: the digest is now {counted.summed.text}."
