"""Routes of one household."""

from django.urls import path

from api.households import devices, invitations, members, pending_review

_IN = "households/<uuid:household>/"

urlpatterns = [
    path(f"{_IN}members/<uuid:member>/role", members.Role.as_view(), name="member-role"),
    path(f"{_IN}members/<uuid:member>/remove", members.Remove.as_view(), name="member-remove"),
    path(f"{_IN}devices", devices.Devices.as_view(), name="devices"),
    path(f"{_IN}devices/<uuid:device>/sign-out", devices.SignOutDevice.as_view(), name="device-sign-out"),
    path(f"{_IN}invitations", invitations.Invitations.as_view(), name="invitations"),
    path(f"{_IN}invitations/<uuid:invitation>/withdraw", invitations.Withdraw.as_view(), name="invitation-withdraw"),
    path(f"{_IN}pending-review", pending_review.PendingList.as_view(), name="pending-review"),
    path(f"{_IN}pending-review/<uuid:pending>/accept", pending_review.Accept.as_view(), name="pending-review-accept"),
    path(
        f"{_IN}pending-review/<uuid:pending>/decline", pending_review.Decline.as_view(), name="pending-review-decline"
    ),
]
