"""How often one may knock. Counted in the cache; the rates are settings (SWARDBOOK_*_RATE).

Guessing is held back per network address, and per email too, from however many addresses it comes;
the second is set so that it slows a guesser and hardly the person.
"""

from hashlib import sha256

from rest_framework.request import Request
from rest_framework.throttling import SimpleRateThrottle
from rest_framework.views import APIView


class _PerAddress(SimpleRateThrottle):
    """Counts requests by the network address they come from."""

    def get_cache_key(self, request: Request, view: APIView) -> str | None:
        """Name the counter of this scope and address."""
        return self.cache_format % {"scope": self.scope, "ident": self.get_ident(request)}


class SignInPerAddress(_PerAddress):
    """Sign-ins from one network address."""

    scope = "sign_in_address"


class SignInPerEmail(SimpleRateThrottle):
    """Sign-ins to one email, known to us or not: both are counted alike."""

    scope = "sign_in_email"

    def get_cache_key(self, request: Request, view: APIView) -> str | None:
        """Name the counter of this scope and email."""
        data = request.data if isinstance(request.data, dict) else {}
        email = str(data.get("email", "")).strip().lower()
        return self.cache_format % {"scope": self.scope, "ident": sha256(email.encode()).hexdigest()}


class SignUpPerAddress(_PerAddress):
    """New accounts from one network address."""

    scope = "sign_up"


class InvitationPerAddress(_PerAddress):
    """Looks at and uses of invitation tokens from one network address."""

    scope = "invitation"
