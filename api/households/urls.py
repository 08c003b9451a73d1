"""Routes of one household."""

from django.urls import path

from api.households import devices, held, invitations, members

_IN = "households/<uuid:household>/"

urlpatterns = [
    path(f"{_IN}members/<uuid:member>/role", members.Role.as_view(), name="member-role"),
    path(f"{_IN}members/<uuid:member>/remove", members.Remove.as_view(), name="member-remove"),
    path(f"{_IN}devices", devices.Devices.as_view(), name="devices"),
    path(f"{_IN}devices/<uuid:device>/sign-out", devices.SignOutDevice.as_view(), name="device-sign-out"),
    path(f"{_IN}invitations", invitations.Invitations.as_view(), name="invitations"),
    path(f"{_IN}invitations/<uuid:invitation>/withdraw", invitations.Withdraw.as_view(), name="invitation-withdraw"),
    path(f"{_IN}held", held.HeldList.as_view(), name="held"),
    path(f"{_IN}held/<uuid:held>/accept", held.Accept.as_view(), name="held-accept"),
    path(f"{_IN}held/<uuid:held>/decline", held.Decline.as_view(), name="held-decline"),
]
