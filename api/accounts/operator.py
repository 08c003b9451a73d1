"""The admin's sign-in form, held to the rules of every other door: counted, and written down."""

from typing import Any

from django.contrib.admin.forms import AdminAuthenticationForm
from django.core.exceptions import ValidationError
from rest_framework.request import Request
from rest_framework.views import APIView

from api.accounts import doors, throttles
from lawn.web import hashing

_SLOWLY = "Too many tries. Wait a few minutes and try again."


class OperatorForm(AdminAuthenticationForm):
    """Counts a try by address and by email before the password is looked at."""

    def clean(self) -> dict[str, Any]:
        """Try the password, unless there were too many tries."""
        assert self.request is not None
        request, email = Request(self.request), str(self.data.get("username", ""))
        address = throttles.SignInPerAddress().allow_request(request, APIView())
        if not (address and throttles.SignInPerEmail().allows(throttles.plain(email))):
            raise ValidationError(_SLOWLY)
        try:
            cleaned: dict[str, Any] = super().clean()
        except hashing.Crowded:
            raise ValidationError(_SLOWLY) from None
        except ValidationError:
            doors.note(request, email, ok=False, session="")
            raise
        doors.note(request, email, ok=True, session="")
        return cleaned
