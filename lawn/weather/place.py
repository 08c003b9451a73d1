"""Places as they leave the server: rounded to a tenth of a degree, so that no address can be told from one."""

from typing import NamedTuple

from lawn.models import Household


class Place(NamedTuple):
    """A place in tenths of a degree."""

    latitude_tenths: int
    longitude_tenths: int

    @property
    def latitude_deg(self) -> float:
        """Latitude, north positive."""
        return self.latitude_tenths / 10

    @property
    def longitude_deg(self) -> float:
        """Longitude, east positive."""
        return self.longitude_tenths / 10


def place_of(household: Household) -> Place | None:
    """Return the household's place, rounded; None where it is not known whole."""
    if household.latitude_deg is None or household.longitude_deg is None:
        return None
    return Place(round(household.latitude_deg * 10), round(household.longitude_deg * 10))
