"""Signed-in browsers, as the database keeps them."""

from django.db import models
from django.db.models import Index


class Session(models.Model):
    """A session under the SHA-256 of its cookie: whoever reads this table, or a backup of it, opens no door.

    `person_id` lets all sessions of one person be ended at once; null while nobody is signed in.
    """

    session_key = models.CharField(primary_key=True, max_length=64)
    session_data = models.TextField()
    expire_date = models.DateTimeField()
    person_id = models.UUIDField(null=True)

    class Meta:
        indexes = [
            # "which sessions has this person?", when they sign out everywhere
            Index(fields=["person_id"], name="session_by_person"),
            # "those run out", taken out at each sign-in
            Index(fields=["expire_date"], name="session_by_end"),
        ]

    def __str__(self) -> str:
        return f"Until {self.expire_date:%Y-%m-%d}"
