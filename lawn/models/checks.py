"""Check constraints drawn from fixtures/kinds/, so that the database says no to what the contract forbids.

The migration freezes what is generated here: a changed range there shows as a missing migration.
"""

from typing import Any

from django.db.models import BaseConstraint, CheckConstraint, Q
from django.db.models.functions import Length
from django.db.models.lookups import LessThanOrEqual

from lawn.contract.kinds import settings_fields


def _condition(name: str, rule: dict[str, Any]) -> Any:
    """Return the condition a known field must meet, or None where its type says everything."""
    absent = Q(**{f"{name}__isnull": True})
    if rule["type"] in ("number", "integer"):
        return absent | Q(**{f"{name}__gte": rule["low"], f"{name}__lte": rule["high"]})
    if rule["type"] == "choice":
        return absent | Q(**{f"{name}__in": rule["choices"]})
    if rule["type"] == "text":
        return absent | Q(LessThanOrEqual(Length(name), rule["max"]))
    return None


def checks_for(kind: str) -> list[BaseConstraint]:
    """Return one named constraint for every bounded field of a settings kind."""
    found: list[BaseConstraint] = []
    for name, rule in settings_fields(kind).items():
        condition = _condition(name, rule)
        if condition is not None:
            found.append(CheckConstraint(condition=condition, name=f"{kind}_{name}_allowed"))
    return found
