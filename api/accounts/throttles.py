"""How often one may try; the rates are settings (EVENFALL_*_RATE).

Counted in the database (`lawn.web.throttle_counters`), so that all processes of a server count together without a
service of its own. Guessing is held back per network address, and per email too, from however many addresses it comes;
the second is set so that it slows a guesser and hardly the person.
"""

import ipaddress
import time

from rest_framework.request import Request
from rest_framework.throttling import SimpleRateThrottle
from rest_framework.views import APIView

from api.accounts import known
from lawn.web import throttle_counters

_PERIODS_S = {"sec": 1, "min": 60, "hour": 3600, "day": 86400}
_IPV6_NETWORK_BITS = 64  # one household's line: RFC 6177 gives a site no less, so its hosts are counted together
_UNKNOWN = "unknown"


def network(address: str | None) -> str:
    """Return what is counted of a network address: IPv4 whole, of IPv6 the network a site has.

    Behind a Unix socket whose proxy names no caller there is none (None or ""): all such requests count together.
    """
    if not address:
        return _UNKNOWN
    try:
        found = ipaddress.ip_address(address.split("%")[0])
    except ValueError:
        return address
    if found.version == 4:
        return str(found)
    return str(ipaddress.ip_network(f"{found}/{_IPV6_NETWORK_BITS}", strict=False))


def plain(email: str) -> str:
    """Return an email as it is counted, however it was written."""
    return email.strip().lower()


class Counted(SimpleRateThrottle):
    """A throttle whose counter is a row."""

    timer = time.time
    _wait_s = 0.0

    def allow_request(self, request: Request, view: APIView) -> bool:
        """Count this request; say whether it may pass."""
        return self.allows(self.name_of(request))

    def allows(self, name: str) -> bool:
        """Count one try under a name; say whether it may pass."""
        rate = self.get_rate()
        if not rate or not name:
            return True
        count, period = rate.split("/")
        now_s = type(self).timer()
        self._wait_s = throttle_counters.count_try(f"{self.scope}:{name}", int(count), _PERIODS_S[period], now_s)
        return self._wait_s == 0.0

    def parse_rate(self, rate: str | None) -> tuple[None, None]:
        """Leave the rate to `allow_request`."""
        return None, None

    def wait(self) -> float:
        """Return the seconds until one may pass."""
        return self._wait_s

    def name_of(self, request: Request) -> str:
        """Name the counter, by default the network address it comes from; "" counts nothing."""
        return network(self.get_ident(request))


def email_in(request: Request) -> str:
    """Return the email that a form names, as it is counted; "" where it names none."""
    data = request.data if isinstance(request.data, dict) else {}
    return plain(str(data.get("email", "")))


def of_known_phone(request: Request) -> str:
    """Name the counter of a phone that has signed in to this account before, apart from all others; "" for none."""
    mark = known.mark_of(request._request, email_in(request))
    return f"known:{mark}" if mark else ""


class SignInPerAddress(Counted):
    """Sign-ins from one network address; those of known phones each for themselves."""

    scope = "sign_in_address"

    def name_of(self, request: Request) -> str:
        """Name the counter."""
        return of_known_phone(request) or super().name_of(request)


class SignInPerEmail(Counted):
    """Tries of passwords for one email, known to us or not: both are counted alike, and so are all doors.

    A phone known to have signed in to it counts for itself: strangers must not lock the owner out.
    """

    scope = "sign_in_email"

    def name_of(self, request: Request) -> str:
        """Name the counter by the email, however it is written."""
        return of_known_phone(request) or email_in(request)


class PasswordPerPerson(SignInPerEmail):
    """Tries of the old password by who is signed in: counted for themselves, whatever strangers try at the door."""

    def name_of(self, request: Request) -> str:
        """Name the counter by the signed-in person."""
        return f"signed in:{request.user.pk}" if request.user.is_authenticated else ""


class SignUpPerAddress(Counted):
    """New accounts from one network address."""

    scope = "sign_up"


class InvitationPerAddress(Counted):
    """Looks at and uses of invitation tokens from one network address."""

    scope = "invitation"
