"""What is kept of sign-ins and of tries at the doors: neither passwords, nor tokens, nor whole addresses."""

import uuid
from typing import Any

from django.db import models
from django.db.models import CheckConstraint, Index, Q

from lawn.models.ids import new_id


class SignIn(models.Model):
    """One try to sign in. What was typed as an address is not kept: people type passwords there."""

    id = models.UUIDField(primary_key=True, default=new_id, editable=False)
    # the account that was tried, where there is one
    person = models.ForeignKey("lawn.Person", on_delete=models.CASCADE, null=True, related_name="+", db_index=False)
    at = models.DateTimeField()
    ok = models.BooleanField()
    # the network it came from: the first 24 bits of an IPv4 address, 48 of an IPv6 one
    address_part = models.CharField(max_length=49, blank=True)
    # what the browser says of the machine it runs on
    agent_part = models.CharField(max_length=80, blank=True)
    # the SHA-256 of the session it opened, by which the phone is found that rides on it
    session = models.CharField(max_length=64, blank=True)

    person_id: uuid.UUID | None

    class Meta:
        verbose_name = "sign-in"
        indexes = [
            # "this person's newest sign-ins", under Household
            Index(fields=["person", "at"], name="sign_in_by_person"),
            # "those older than 180 days", taken out at each sign-in
            Index(fields=["at"], name="sign_in_by_age"),
        ]

    def __str__(self) -> str:
        return f"{self.at:%Y-%m-%d %H:%M} {'in' if self.ok else 'refused'}"


class ThrottleCount(models.Model):
    """How far one counter of a throttle is used up: `due` is when it will be empty again, in Unix seconds."""

    # SHA-256 of the counter's name, which holds an address or an e-mail
    key = models.CharField(primary_key=True, max_length=64)
    due: Any = models.FloatField()

    class Meta:
        indexes = [
            # "counters long empty", taken out at each sign-in
            Index(fields=["due"], name="throttle_by_due"),
        ]
        constraints = [CheckConstraint(condition=Q(due__gt=0), name="throttle_due_after_1970")]

    def __str__(self) -> str:
        return self.key[:8]
