"""The household's book as rows: one file an aggregate."""

from lawn.models.audit import SignIn, ThrottleCount
from lawn.models.calendar import CalendarLink
from lawn.models.change import Change, Conflict, Hole, Op, ParkedOp, Stream
from lawn.models.ground import Zone
from lawn.models.household import Device, Household, Invitation, Member, Person
from lawn.models.log import Entry
from lawn.models.season import Plan, Step
from lawn.models.session import Session
from lawn.models.shed import Mower, Product, Spreader
from lawn.models.store import StoreMark
from lawn.models.together import Claim, Photo, Settlement
from lawn.models.weather import WeatherMonth, WeatherPlace

__all__ = [
    "CalendarLink",
    "Change",
    "Claim",
    "Conflict",
    "Device",
    "Entry",
    "Hole",
    "Household",
    "Invitation",
    "Member",
    "Mower",
    "Op",
    "ParkedOp",
    "Person",
    "Photo",
    "Plan",
    "Product",
    "Session",
    "Settlement",
    "SignIn",
    "Spreader",
    "Step",
    "StoreMark",
    "Stream",
    "ThrottleCount",
    "WeatherMonth",
    "WeatherPlace",
    "Zone",
]
