"""What a household allows to leave the server: said by a keeper, heard by every phone."""

from datetime import datetime

from lawn.book.people import access, membership
from lawn.book.sync.feed import changing
from lawn.models import Household, Member

_ONLY = "Only a keeper of the household turns the forecast on or off."


def set_forecast(actor: Member, on: bool, now: datetime) -> Household:
    """Turn the forecast on or off; return the household.

    Raises PermissionError where the actor is no keeper once the household's lock is held (A11).
    """
    with changing(actor.household_id, 1) as feed:
        access.keeper_now(actor, _ONLY)
        household = access.rows(Household, actor.household_id).get()
        if bool(household.forecast) != on:
            membership.fill(household, "household", {"forecast": {"forecast": on}}, actor.id, now)
            household.save(update_fields=["forecast", "versions", "extra"])
            feed.touch("household", household.id)
    return household
