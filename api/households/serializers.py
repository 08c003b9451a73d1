"""What a household's own routes take in and give out."""

from typing import Any

from rest_framework import serializers

from api import says


class NewInvitationIn(serializers.Serializer[Any]):
    """An invitation needs nothing: it is one-time and lasts 7 days."""


class NewInvitationOut(serializers.Serializer[Any]):
    """A one-time link, and the same link as a drawing for another phone's camera."""

    link = serializers.URLField()
    svg = serializers.CharField(help_text="A QR code as an inline <svg> element")
    expires_at = serializers.DateTimeField()


class DeviceIn(serializers.Serializer[Any]):
    """A phone or browser that asks to write in the household's book."""

    name = says.Text("The phone's name", "write 1 to 80 characters", max_length=80)


class DeviceOut(serializers.Serializer[Any]):
    """The id the device sends with every push."""

    device = serializers.UUIDField()
