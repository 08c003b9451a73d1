"""A household's phones over HTTP."""

import uuid

from django.utils import timezone
from drf_spectacular.utils import extend_schema
from rest_framework import status
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error, read
from api.errors import Refusal
from api.households.inside import NO, TAG, member_of, only
from api.households.serializers import DeviceIn, DeviceOut, DevicesOut, NewDeviceOut
from api.households.throttles import DevicesPerPerson
from lawn.book.people import devices
from lawn.web import sessions

_FULL = (
    f"You have {devices.MOST_OPEN} phones in this household, the most one person may have. "
    "Sign out those you no longer use, under Household."
)


class Devices(APIView):
    """The household's phones; one more of them."""

    throttle_classes = [DevicesPerPerson]

    @extend_schema(operation_id="households_devices", tags=TAG, responses={200: DevicesOut, **NO})
    def get(self, request: Request, household: uuid.UUID) -> Response:
        """Give every member all phones, with their last sync and where their entries stand."""
        member = member_of(request, household)
        found = devices.listed(member.household_id, sessions.of_request(request._request))
        return Response(DevicesOut({"devices": found}).data)

    @extend_schema(
        operation_id="households_add_device",
        tags=TAG,
        request=DeviceIn,
        responses={
            201: NewDeviceOut,
            400: error("A field is wrong"),
            409: error("As many phones as one person may have: too_many_phones"),
            429: error("Too many new phones"),
            **NO,
        },
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Issue the id under which this phone pushes (sync.md, S5), and tie it to this session."""
        member = member_of(request, household)
        name = read(DeviceIn, request)["name"]
        try:
            with only("Only a member adds a phone."):
                device = devices.register(member, name, timezone.now(), sessions.of_request(request._request))
        except devices.TooManyPhones:
            raise Refusal(status.HTTP_409_CONFLICT, "too_many_phones", _FULL) from None
        return Response(NewDeviceOut({"device": device.id}).data, status=status.HTTP_201_CREATED)


class SignOutDevice(APIView):
    """Sign out a phone that was lost."""

    @extend_schema(
        operation_id="households_sign_out_device",
        tags=TAG,
        request=None,
        responses={200: DeviceOut, 403: error("Neither one's own phone nor a keeper"), **NO},
    )
    def post(self, request: Request, household: uuid.UUID, device: uuid.UUID) -> Response:
        """End the phone's session and close it: one's own, or any by a keeper. Signed in again it begins anew."""
        member, session = member_of(request, household), sessions.of_request(request._request)
        with only("Only its owner or a keeper signs a phone out."):
            closed = devices.sign_out(member, device, timezone.now())
        known = next(known for known in devices.listed(member.household_id, session) if known.device.id == closed.id)
        return Response(DeviceOut(known).data)
