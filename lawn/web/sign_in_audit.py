"""The record of sign-ins: when, from which network, with which kind of machine, and whether the door opened.

Neither passwords nor tokens nor whole addresses are kept, and of an address nobody signs in with nothing at all.
"""

import ipaddress
import re
from dataclasses import dataclass
from datetime import datetime, timedelta

from lawn.book.people import access
from lawn.models import Device, Person, Session, SignIn
from lawn.web import throttle_counters

KEPT = timedelta(days=180)
SHOWN = 50
_IPV4_BITS, _IPV6_BITS = 24, 48
# "Product/1.0 (the machine; its system) ..." (RFC 9110, sections 5.6.5 and 10.1.5): the first comment of the field
_MACHINE = re.compile(r"\(([^()]*)")


@dataclass(frozen=True)
class Seen:
    """One try to sign in, with the name of the phone that rides on the session it opened."""

    sign_in: SignIn
    device: str


def record(email: str, ok: bool, address: str, agent: str, session: str, now: datetime) -> None:
    """Write down a try to sign in, and take out what is older than 180 days.

    email: as typed; kept nowhere, only the account it belongs to
    address: of the network, whole or ""; kept cut short
    agent: the browser's User-Agent field; of it the part that describes the machine is kept
    session: hash of the session opened, "" for none
    """
    person = Person.objects.filter(email=email.strip().lower()).only("id").first() if _askable(email) else None
    SignIn(
        person=person, at=now, ok=ok, address_part=address_part(address), agent_part=agent_part(agent), session=session
    ).save(force_insert=True)
    prune(now)


def _askable(email: str) -> bool:
    """Whether PostgreSQL can be asked for a text: it has no NUL, and UTF-8 no half of a surrogate pair."""
    return not re.search("[\x00\ud800-\udfff]", email)


def prune(now: datetime) -> None:
    """Take out sign-ins older than 180 days, sessions run out, and throttle counters that are empty again."""
    SignIn.objects.filter(at__lt=now - KEPT).delete()
    Session.objects.filter(expire_date__lt=now).delete()
    throttle_counters.forget(now.timestamp())


def of_person(person: Person) -> list[Seen]:
    """Return a person's newest 50 tries, newest first."""
    phones: dict[str, str] = {}
    for member in access.memberships(person):
        mine = access.rows(Device, member.household_id).filter(member_id=member.id).exclude(session="")
        phones.update(mine.values_list("session", "name"))
    found = SignIn.objects.filter(person=person).order_by("-at", "-id")[:SHOWN]
    return [Seen(sign_in, phones.get(sign_in.session, "") if sign_in.session else "") for sign_in in found]


def address_part(address: str) -> str:
    """Return the network of an address: 24 bits of IPv4, 48 of IPv6; "" for what is no address."""
    try:
        found = ipaddress.ip_address(address)
    except ValueError:
        return ""
    if isinstance(found, ipaddress.IPv6Address) and found.ipv4_mapped:
        found = found.ipv4_mapped
    bits = _IPV4_BITS if found.version == 4 else _IPV6_BITS
    return str(ipaddress.ip_network(f"{found.compressed.split('%')[0]}/{bits}", strict=False))


def agent_part(agent: str) -> str:
    """Return what a User-Agent field says of the machine, at most 80 letters; "" where it says nothing."""
    found = _MACHINE.search(agent)
    return re.sub(r"[^\x20-\x7e]", "", found[1] if found else "").strip()[:80]
