"""The ground: zones of grass."""

from django.db import models

from lawn.models.checks import checks_for
from lawn.models.record import SettingsRecord


class Zone(SettingsRecord):
    """A piece of ground treated alike. SI units; *_typed keeps what the person wrote."""

    name = models.CharField(max_length=60, null=True)
    area_m2 = models.FloatField(null=True)
    area_sd_m2 = models.FloatField(null=True)
    method = models.CharField(max_length=20, null=True)
    measured = models.JSONField(null=True)
    outline = models.JSONField(null=True)
    water_edges = models.JSONField(null=True)
    heading_deg = models.FloatField(null=True)
    grass = models.CharField(max_length=60, null=True)
    cut_height_mm = models.FloatField(null=True)
    cut_height_typed = models.JSONField(null=True)
    mow_every_days = models.FloatField(null=True)
    sun = models.CharField(max_length=20, null=True)
    slope = models.CharField(max_length=20, null=True)
    soil = models.CharField(max_length=60, null=True)
    near_water = models.BooleanField(null=True)
    water_edge_m = models.FloatField(null=True)
    water_edge_typed = models.JSONField(null=True)
    setback_m = models.FloatField(null=True)
    setback_typed = models.JSONField(null=True)
    remarks = models.CharField(max_length=2000, null=True)
    show_patch = models.BooleanField(null=True)

    class Meta:
        constraints = checks_for("zone")

    def __str__(self) -> str:
        return self.name or str(self.id)
