"""What the calendar's routes take in and give out."""

from typing import Any

from rest_framework import serializers


class CalendarIn(serializers.Serializer[Any]):
    """A link needs nothing: it is its member's, and reads only."""


class CalendarOut(serializers.Serializer[Any]):
    """Whether the member's own link is on."""

    on = serializers.BooleanField()
    made_at = serializers.DateTimeField(allow_null=True, help_text="When the link was made; null while it is off")


class NewCalendarOut(serializers.Serializer[Any]):
    """The new link. It is handed over once: the server keeps only a hash of its token."""

    link = serializers.CharField()
    made_at = serializers.DateTimeField()
