"""The shed: products and the machines that put them down or cut the grass."""

from django.db import models
from django.db.models import CheckConstraint, F, Q

from lawn.models.checks import checks_for
from lawn.models.record import SettingsRecord


class Product(SettingsRecord):
    """A product as its label describes it. SI units; *_typed keeps what the person wrote."""

    name = models.CharField(max_length=80, null=True)
    sort = models.CharField(max_length=20, null=True)
    net_kg = models.FloatField(null=True)
    net_typed = models.JSONField(null=True)
    coverage_m2 = models.FloatField(null=True)
    coverage_typed = models.JSONField(null=True)
    n_percent = models.FloatField(null=True)
    p2o5_percent = models.FloatField(null=True)
    k2o_percent = models.FloatField(null=True)
    slow_n_share = models.FloatField(null=True)
    source = models.CharField(max_length=20, null=True)
    signal_word = models.CharField(max_length=20, null=True)
    water_in = models.CharField(max_length=20, null=True)
    keep_off_hours = models.FloatField(null=True)
    interval_days = models.FloatField(null=True)
    uses_year = models.IntegerField(null=True)
    seed_wait_days = models.FloatField(null=True)
    remarks = models.CharField(max_length=2000, null=True)
    price = models.FloatField(null=True)
    granules = models.CharField(max_length=20, null=True)
    bulk_density_kg_m3 = models.FloatField(null=True)

    class Meta:
        constraints = checks_for("product")

    def __str__(self) -> str:
        return self.name or str(self.id)


class Spreader(SettingsRecord):
    """A walk-behind spreader: its dial, its hopper and how its owner walks with it."""

    name = models.CharField(max_length=60, null=True)
    sort = models.CharField(max_length=20, null=True)
    lowest = models.FloatField(null=True)
    highest = models.FloatField(null=True)
    step = models.FloatField(null=True)
    swath_m = models.FloatField(null=True)
    swath_typed = models.JSONField(null=True)
    speed_m_s = models.FloatField(null=True)
    speed_typed = models.JSONField(null=True)
    deflector = models.BooleanField(null=True)
    top_length_m = models.FloatField(null=True)
    top_width_m = models.FloatField(null=True)
    bottom_length_m = models.FloatField(null=True)
    bottom_width_m = models.FloatField(null=True)
    height_m = models.FloatField(null=True)
    holds_kg = models.FloatField(null=True)
    hopper_typed = models.JSONField(null=True)

    class Meta:
        constraints = [
            *checks_for("spreader"),
            CheckConstraint(
                condition=Q(lowest__isnull=True) | Q(highest__isnull=True) | Q(highest__gt=F("lowest")),
                name="spreader_dial_opens_upwards",
            ),
        ]

    def __str__(self) -> str:
        return self.name or str(self.id)


class Mower(SettingsRecord):
    """A mower: the heights its notches were measured to cut at, and when its blade was sharpened. Days as written."""

    name = models.CharField(max_length=60, null=True)
    notches = models.JSONField(null=True)
    lowest_mm = models.FloatField(null=True)
    lowest_typed = models.JSONField(null=True)
    highest_mm = models.FloatField(null=True)
    highest_typed = models.JSONField(null=True)
    sharpened_on = models.CharField(max_length=10, null=True)
    hours_between = models.FloatField(null=True)

    class Meta:
        constraints = checks_for("mower")

    def __str__(self) -> str:
        return self.name or str(self.id)
