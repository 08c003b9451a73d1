"""The household: its people, their phones and the invitations between them."""

import uuid
from datetime import datetime
from typing import Any, ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.contrib.auth.hashers import make_password
from django.contrib.auth.models import PermissionsMixin
from django.db import models
from django.db.models import CheckConstraint, Index, Q, UniqueConstraint
from django.utils import timezone

from lawn.models.checks import checks_for
from lawn.models.ids import new_id
from lawn.models.record import Kept


class PersonManager(BaseUserManager["Person"]):
    """Makes people; an email is kept in lower case so that one address signs in one person."""

    def get_by_natural_key(self, username: str | None) -> "Person":
        """Return the person with this email, however it is capitalised."""
        return self.get(email=(username or "").strip().lower())

    def create_user(self, email: str, password: str | None = None, name: str = "", **more: Any) -> "Person":
        """Create a person; raise ValueError without an email."""
        return self.create_hashed(email, make_password(password), name, **more)

    def create_hashed(self, email: str, hashed: str, name: str = "", **more: Any) -> "Person":
        """Create a person whose password was hashed already; raise ValueError without an email."""
        if not email.strip():
            raise ValueError("A person needs an email address.")
        person = self.model(email=email.strip().lower(), name=name, password=hashed, **more)
        person.save(using=self._db)
        return person

    def create_superuser(self, email: str, password: str | None = None, name: str = "", **more: Any) -> "Person":
        """Create an operator, who may use the admin."""
        return self.create_user(email, password, name, is_staff=True, is_superuser=True, **more)


class Person(AbstractBaseUser, PermissionsMixin):
    """Someone who signs in by email; what they see is decided by their memberships."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    email = models.EmailField(unique=True, max_length=254)
    name = models.CharField(max_length=60)
    is_active = models.BooleanField(default=True)
    is_staff = models.BooleanField(default=False)
    joined_at = models.DateTimeField(default=timezone.now, editable=False)

    USERNAME_FIELD = "email"
    REQUIRED_FIELDS: ClassVar[list[str]] = ["name"]

    objects: ClassVar[PersonManager] = PersonManager()

    class Meta:
        verbose_name_plural = "people"
        constraints = [
            CheckConstraint(condition=Q(email=models.functions.Lower("email")), name="person_email_lower_case"),
        ]

    def __str__(self) -> str:
        return f"{self.name} <{self.email}>"


class Household(Kept):
    """One household's book: its own settings, and the one counter that orders every change in it (S7)."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    name = models.CharField(max_length=60, null=True)
    latitude_deg = models.FloatField(null=True)
    longitude_deg = models.FloatField(null=True)
    elevation_m = models.FloatField(null=True)
    elevation_typed = models.JSONField(null=True)
    warmest_c = models.FloatField(null=True)
    coldest_c = models.FloatField(null=True)
    monthly_mean_c = models.JSONField(null=True)
    climate_typed = models.JSONField(null=True)
    climate_from = models.CharField(max_length=20, null=True)
    climate_years = models.CharField(max_length=40, null=True)
    # the household's mowing nights
    mow_monday = models.BooleanField(null=True)
    mow_tuesday = models.BooleanField(null=True)
    mow_wednesday = models.BooleanField(null=True)
    mow_thursday = models.BooleanField(null=True)
    mow_friday = models.BooleanField(null=True)
    mow_saturday = models.BooleanField(null=True)
    mow_sunday = models.BooleanField(null=True)
    # where its local rules come from, and those it entered itself (limits.rules)
    rules_place = models.CharField(max_length=60, null=True)
    own_rules = models.JSONField(null=True)
    # whether the place, rounded, may be told to the weather service; a keeper says so (lawn/weather/household.py)
    forecast = models.BooleanField(null=True)

    # The newest change. Taken by UPDATE ... RETURNING as the first write of a transaction, never read and saved.
    seq = models.BigIntegerField(default=0)
    # Changes when the server was restored from a backup (S11, acted on by a later issue).
    epoch = models.UUIDField(default=uuid.uuid4)
    # The two running sums of lawn.book.merging.digest over the current change rows, modulo 2**32.
    digest_a = models.BigIntegerField(default=0)
    digest_b = models.BigIntegerField(default=0)

    # What its phones have written so far, as JSON; never less: what is changed or crossed out is kept all the same.
    taken_bytes = models.BigIntegerField(default=0)

    class Meta:
        constraints = [
            *checks_for("household"),
            CheckConstraint(condition=Q(seq__gte=0), name="household_seq_not_negative"),
            CheckConstraint(
                condition=Q(digest_a__gte=0, digest_a__lt=2**32, digest_b__gte=0, digest_b__lt=2**32),
                name="household_digest_32_bits",
            ),
        ]

    def __str__(self) -> str:
        return self.name or str(self.id)


class Member(Kept):
    """A person's place in one household."""

    pk: Any = models.CompositePrimaryKey("household_id", "id")
    household = models.ForeignKey(Household, on_delete=models.CASCADE, related_name="members", db_index=False)
    id = models.UUIDField(default=new_id)
    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="memberships", db_index=False)
    name = models.CharField(max_length=60, null=True)
    units = models.CharField(max_length=20, null=True)
    role = models.CharField(max_length=20, null=True)
    active = models.BooleanField(null=True)

    household_id: uuid.UUID
    person_id: uuid.UUID

    class Meta:
        constraints = [
            UniqueConstraint(fields=["household", "person"], name="member_once_per_household"),
            *checks_for("member"),
        ]
        indexes = [
            # "which households is this person in?", asked at sign-in, before any household is known
            Index(fields=["person"], name="member_by_person"),
        ]

    def __str__(self) -> str:
        return f"{self.name} ({self.role})"

    @property
    def is_keeper(self) -> bool:
        """Whether this member may invite, rename the household and change roles."""
        return self.role == "keeper" and bool(self.active)


class Device(models.Model):
    """A phone or browser known to a household; only its own member may send from it (S5)."""

    pk: Any = models.CompositePrimaryKey("household_id", "id")
    household = models.ForeignKey(Household, on_delete=models.CASCADE, related_name="devices", db_index=False)
    id = models.UUIDField(default=new_id)
    member_id = models.UUIDField()
    name = models.CharField(max_length=80, blank=True)
    created_at = models.DateTimeField(default=timezone.now)
    last_seen_at = models.DateTimeField(null=True)
    # signed out from afar, or by its own member: it cannot send any more
    closed_at = models.DateTimeField(null=True)
    # the SHA-256 of the session it last synced by (lawn.models.Session), so that the session can be ended with it
    session = models.CharField(max_length=64, blank=True, default="")

    household_id: uuid.UUID

    class Meta:
        indexes = [
            # "which phones has this member?", shown under Household
            Index(fields=["household", "member_id"], name="device_by_member"),
        ]

    def __str__(self) -> str:
        return self.name or str(self.id)


class Invitation(models.Model):
    """A one-time way into a household. Only the hash of its token is kept: a stolen table opens no door."""

    token_hash = models.CharField(primary_key=True, max_length=64)
    # by which the keeper speaks of it; it says nothing of the token
    id = models.UUIDField(default=uuid.uuid4, editable=False)
    household = models.ForeignKey(Household, on_delete=models.CASCADE, related_name="invitations", db_index=False)
    made_by = models.UUIDField()
    created_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)
    used_by = models.UUIDField(null=True, blank=True)
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    household_id: uuid.UUID

    class Meta:
        constraints = [
            CheckConstraint(condition=Q(expires_at__gt=models.F("created_at")), name="invitation_expires_later"),
            CheckConstraint(
                condition=Q(used_at__isnull=True, used_by__isnull=True)
                | Q(used_at__isnull=False, used_by__isnull=False),
                name="invitation_used_by_someone",
            ),
            # serves "the invitation the keeper means"
            UniqueConstraint(fields=["household", "id"], name="invitation_id_once"),
        ]
        indexes = [
            # "which invitations of this household are still open?", under Household and in the operator's admin
            Index(fields=["household", "expires_at"], name="invitation_open"),
        ]

    def __str__(self) -> str:
        return f"Invitation of {self.created_at:%Y-%m-%d}"

    def is_open(self, now: datetime) -> bool:
        """Whether the invitation can still be redeemed at this moment."""
        return self.used_at is None and self.withdrawn_at is None and now < self.expires_at
