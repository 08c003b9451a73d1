"""Weather: what a household brought itself, a month a record, and what was fetched for a place rounded to 0.1°."""

import uuid

from django.db import models
from django.db.models import CheckConstraint, Index, Q, UniqueConstraint

from lawn.models.checks import checks_for
from lawn.models.record import SettingsRecord


class WeatherMonth(SettingsRecord):
    """The days of a month that a household read in from a file of its own. Days are kept as written."""

    month = models.CharField(max_length=10, null=True)
    days = models.JSONField(null=True)
    from_file = models.CharField(max_length=120, null=True)

    class Meta:
        constraints = checks_for("weather_month")

    def __str__(self) -> str:
        return f"Weather of {self.month}"


class WeatherPlace(models.Model):
    """What the weather service said of a place. Households that share a rounded place share the row.

    It says nothing of who asked. The book's own tables lead with their household; this one is a store of what anybody
    could fetch, and can be thrown away at any time.
    """

    # tenths of a degree: nothing finer is ever kept here or told to the service
    latitude_tenths = models.SmallIntegerField()
    longitude_tenths = models.SmallIntegerField()
    # Made with the row: a cursor of another series is worth nothing (the row was thrown away, or a backup restored).
    series = models.UUIDField(default=uuid.uuid4)
    # Raised by each fetch that brought something new; each day notes the number it came with.
    version = models.IntegerField(default=0)
    # {date: [version, min_c, max_c, rain_mm, et0_mm, wind_m_s]}, null where the service said nothing
    days = models.JSONField(default=dict)
    fetched_at = models.DateTimeField(null=True)
    # taken before the service is asked, so that one request asks it and the others do not wait
    tried_at = models.DateTimeField(null=True)
    # why the last try brought nothing; "" when it did
    trouble = models.CharField(max_length=20, blank=True, default="")
    # the twelve means of whole years, as the archive gave them: {"monthly_mean_c": [...], "years": "2016 to 2025"}
    climate = models.JSONField(null=True)
    climate_tried_at = models.DateTimeField(null=True)
    asked_at = models.DateTimeField()

    class Meta:
        constraints = [
            # serves "what is known of this place?", asked by every phone
            UniqueConstraint(fields=["latitude_tenths", "longitude_tenths"], name="weather_place_once"),
            CheckConstraint(
                condition=Q(latitude_tenths__gte=-900, latitude_tenths__lte=900), name="weather_place_latitude"
            ),
            CheckConstraint(
                condition=Q(longitude_tenths__gte=-1800, longitude_tenths__lte=1800), name="weather_place_longitude"
            ),
        ]
        indexes = [
            # "places nobody has asked about for long", taken out now and then
            Index(fields=["asked_at"], name="weather_place_by_age"),
        ]

    def __str__(self) -> str:
        return f"{self.latitude_tenths / 10}, {self.longitude_tenths / 10}"
