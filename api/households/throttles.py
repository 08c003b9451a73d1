"""How often one person may add phones and invitations: each is a row that stays."""

from rest_framework.permissions import SAFE_METHODS
from rest_framework.request import Request
from rest_framework.views import APIView

from api.accounts.throttles import Counted


class _WritesPerPerson(Counted):
    """Counts what a person adds, over all their households and phones; looking counts nothing."""

    def allow_request(self, request: Request, view: APIView) -> bool:
        """Count a request that adds."""
        return request.method in SAFE_METHODS or super().allow_request(request, view)

    def name_of(self, request: Request) -> str:
        """Name the counter by the person; who is signed out is turned away without one."""
        return str(request.user.pk) if request.user.is_authenticated else ""


class DevicesPerPerson(_WritesPerPerson):
    """New phones of one person."""

    scope = "devices"


class InvitesPerPerson(_WritesPerPerson):
    """New invitations of one person."""

    scope = "invites"
