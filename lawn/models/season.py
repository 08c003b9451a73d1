"""The season: what a household wishes of a year, and the steps of its plan. What was solved is never kept."""

from django.db import models

from lawn.models.checks import checks_for
from lawn.models.record import SettingsRecord


class Plan(SettingsRecord):
    """The wishes of a household for a year, which begins with its cold half. Days are kept as written."""

    starts_on = models.CharField(max_length=10, null=True)
    southern = models.BooleanField(null=True)
    level = models.CharField(max_length=20, null=True)
    clippings = models.CharField(max_length=20, null=True)
    budget = models.FloatField(null=True)
    evenings_week = models.IntegerField(null=True)
    minutes_evening = models.IntegerField(null=True)
    only_gentle = models.BooleanField(null=True)
    skip_months = models.JSONField(null=True)

    class Meta:
        constraints = checks_for("plan")

    def __str__(self) -> str:
        return f"Plan from {self.starts_on}"


class Step(SettingsRecord):
    """A job of a plan: where, when, with what, and how it stands. Ids and days are kept as written."""

    plan_id = models.CharField(max_length=36, null=True)
    job = models.CharField(max_length=20, null=True)
    title = models.CharField(max_length=120, null=True)
    zone_ids = models.JSONField(null=True)
    feeding_group = models.CharField(max_length=60, null=True)
    from_on = models.CharField(max_length=10, null=True)
    to_on = models.CharField(max_length=10, null=True)
    product_id = models.CharField(max_length=36, null=True)
    rate_kg_m2 = models.FloatField(null=True)
    rate_typed = models.JSONField(null=True)
    locked = models.BooleanField(null=True)
    state = models.CharField(max_length=20, null=True)
    entry_id = models.CharField(max_length=36, null=True)

    class Meta:
        constraints = checks_for("step")

    def __str__(self) -> str:
        return f"{self.job} {self.from_on}"
