"""What the members of a household do together: claims, settled clashes, photos."""

from django.db import models
from django.db.models import Index

from lawn.models.checks import checks_for
from lawn.models.record import SettingsRecord


class Claim(SettingsRecord):
    """What a member says they will do on a day; whose it is stands in `made_by`. Ids and days are kept as written."""

    job = models.CharField(max_length=20, null=True)
    day = models.CharField(max_length=10, null=True)
    zone_ids = models.JSONField(null=True)
    note = models.CharField(max_length=200, null=True)

    class Meta:
        constraints = checks_for("claim")

    def __str__(self) -> str:
        return f"{self.job} {self.day}"


class Settlement(SettingsRecord):
    """A clash between entries (two feeds of one zone, say) that somebody has looked at and settled."""

    clash = models.CharField(max_length=400, null=True)
    kind = models.CharField(max_length=40, null=True)
    entry_ids = models.JSONField(null=True)
    note = models.CharField(max_length=400, null=True)

    class Meta:
        constraints = checks_for("settlement")

    def __str__(self) -> str:
        return self.clash or str(self.id)


class Photo(SettingsRecord):
    """A photo of a log entry or a zone: its thumbnail and the name of the picture, which lies in the photo store."""

    of = models.CharField(max_length=20, null=True)
    of_id = models.CharField(max_length=36, null=True)
    sha256 = models.CharField(max_length=64, null=True)
    width_px = models.IntegerField(null=True)
    height_px = models.IntegerField(null=True)
    size_bytes = models.IntegerField(null=True)
    taken_at = models.CharField(max_length=40, null=True)
    thumb = models.CharField(max_length=11000, null=True)
    caption = models.CharField(max_length=200, null=True)

    class Meta:
        constraints = checks_for("photo")
        indexes = [
            # "may this household see this picture?", asked for every download
            Index(fields=["household", "sha256"], name="photo_by_hash"),
        ]

    def __str__(self) -> str:
        return self.sha256 or str(self.id)
