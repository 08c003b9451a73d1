"""What a household's own routes take in and give out."""

from typing import Any

from rest_framework import serializers

from api import says
from api.sync.serializers import WhySerializer

ROLES = ("keeper", "member")


class MemberOut(serializers.Serializer[Any]):
    """A member after a change; the same travels to every phone as a record."""

    id = serializers.UUIDField()
    name = serializers.CharField()
    role = serializers.ChoiceField(choices=ROLES)
    active = serializers.BooleanField(help_text="Still in the household")


class RoleIn(serializers.Serializer[Any]):
    """A member's part in the household."""

    role = says.Choice("The role", ROLES)


class NewInvitationIn(serializers.Serializer[Any]):
    """An invitation needs nothing: it is one-time and lasts 7 days."""


class NewInvitationOut(serializers.Serializer[Any]):
    """A one-time link, and the same link as a drawing for another phone's camera."""

    id = serializers.UUIDField(help_text="By which it can be withdrawn; it opens nothing")
    link = serializers.URLField()
    svg = serializers.CharField(help_text="A QR code as an inline <svg> element")
    expires_at = serializers.DateTimeField()


class KeptInvitationOut(serializers.Serializer[Any]):
    """An invitation as the keeper sees it afterwards: never its link, which is stored nowhere."""

    id = serializers.UUIDField()
    made_by = serializers.UUIDField(help_text="A member")
    created_at = serializers.DateTimeField()
    expires_at = serializers.DateTimeField()
    used_at = serializers.DateTimeField(allow_null=True)
    used_by = serializers.UUIDField(allow_null=True, help_text="A member")
    withdrawn_at = serializers.DateTimeField(allow_null=True)


class InvitationsOut(serializers.Serializer[Any]):
    """The household's invitations, newest first."""

    invitations = KeptInvitationOut(many=True)


class DeviceIn(serializers.Serializer[Any]):
    """A phone or browser that asks to write in the household's book."""

    name = says.Text("The phone's name", "write 1 to 80 characters", max_length=80)


class NewDeviceOut(serializers.Serializer[Any]):
    """The id the device sends with every push."""

    device = serializers.UUIDField()


class DeviceOut(serializers.Serializer[Any]):
    """A phone as every member of the household sees it."""

    id = serializers.UUIDField(source="device.id")
    name = serializers.CharField(source="device.name")
    member_id = serializers.UUIDField(source="device.member_id")
    member_name = serializers.CharField()
    created_at = serializers.DateTimeField(source="device.created_at")
    last_seen_at = serializers.DateTimeField(
        source="device.last_seen_at", allow_null=True, help_text="Its last sync, to 5 minutes; null before the first"
    )
    this = serializers.BooleanField(help_text="The phone that asks")
    closed_at = serializers.DateTimeField(source="device.closed_at", allow_null=True, help_text="Signed out from afar")
    waiting_holes = serializers.IntegerField(help_text="Numbers of its line that will never carry an entry")
    acked_dseq = serializers.IntegerField(help_text="The last of its numbers that the server has answered")


class DevicesOut(serializers.Serializer[Any]):
    """The household's phones, newest first."""

    devices = DeviceOut(many=True)


class PendingOut(serializers.Serializer[Any]):
    """An entry that came from a former member's phone, whole and as it came."""

    id = serializers.UUIDField(source="parked.id")
    member_id = serializers.UUIDField(source="parked.member_id")
    member_name = serializers.CharField()
    device_id = serializers.UUIDField(source="parked.device_id")
    received_at = serializers.DateTimeField(source="parked.received_at")
    hlc = serializers.CharField(source="said.hlc")
    m = serializers.JSONField(source="said.m", help_text="What the entry says, item by item")
    why = WhySerializer(source="parked.why")


class PendingAskSerializer(serializers.Serializer[Any]):
    """Which page of what is held is wanted."""

    after = serializers.CharField(
        required=False, trim_whitespace=False, help_text="As the page before said; none asks for the first."
    )


class PendingListOut(serializers.Serializer[Any]):
    """What waits for a keeper's yes or no, oldest first."""

    pending_review = PendingOut(many=True)
    after = serializers.CharField(allow_null=True, help_text="Null on the last page.")
    count = serializers.IntegerField(help_text="Of all pages.")


class DeclinedOut(serializers.Serializer[Any]):
    """The entry that was declined; it stays on the server, whole and marked."""

    id = serializers.UUIDField()
