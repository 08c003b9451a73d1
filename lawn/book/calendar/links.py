"""A member's calendar link: made, made anew, turned off. Its token is handed over once and stored nowhere."""

import secrets
from datetime import datetime

from lawn.book.people import access
from lawn.book.people.membership import hash_token
from lawn.book.sync.feed import changing
from lawn.models import CalendarLink, Member


def kept(member: Member) -> CalendarLink | None:
    """Return the member's link as it is kept; None while theirs is off."""
    return access.rows(CalendarLink, member.household_id).filter(member_id=member.id).first()


def make(member: Member, now: datetime) -> tuple[CalendarLink, str]:
    """Make the member's link, in the place of the one they had; return it with its token.

    Raises NoAccess where the membership has ended once the household's lock is held (A11).
    """
    token = secrets.token_urlsafe(32)
    with changing(member.household_id, 0):
        member = access.as_now(member)
        access.rows(CalendarLink, member.household_id).filter(member_id=member.id).delete()
        link = CalendarLink(
            household_id=member.household_id, member_id=member.id, token_hash=hash_token(token), made_at=now
        )
        link.save(force_insert=True)
    return link, token


def turn_off(member: Member) -> None:
    """End the member's link; where there is none it stays so."""
    with changing(member.household_id, 0):
        access.rows(CalendarLink, member.household_id).filter(member_id=member.id).delete()


def reader(token: str) -> Member:
    """Return the member by whose link this is asked; raise NoAccess."""
    return access.calendar_member(hash_token(token))
