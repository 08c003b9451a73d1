"""What a thermometer in the demo's ground says: the soil of its climate by the engine, and how far off this one was."""

from datetime import date, timedelta
from typing import Any

from lawn.demo.asking import Item, ask, si, typed
from lawn.units import registry

LEAD_DAYS = 30  # days of air that lead up to a reading
LEAP = 2024  # the climate tells of a leap year


def read(row: dict[str, Any], day: date, climate: Item, *, southern: bool) -> Item:
    """The body of a reading of the soil on a day of the year, in whole °F as such a thermometer shows it."""
    depth_mm = si(row["depth"])
    amount = f"{round(registry.back(_soil_c(climate, day, depth_mm, southern=southern), 'deg_f')) + row['off_f']}"
    return {
        "kind": "reading",
        "measures": "soil",
        "temperature_c": registry.convert(amount, "deg_f"),
        "temperature_typed": typed([amount, "deg_f"]),
        "depth_mm": depth_mm,
        "depth_typed": typed(row["depth"]),
    }


def _soil_c(climate: Item, day: date, depth_mm: float, *, southern: bool) -> float:
    means = {name: climate[name] for name in ("warmest_c", "coldest_c")}
    daily = ask("warmth.climate", **means, southern=southern)["daily_mean_c"]
    days = [day - timedelta(days=back) for back in range(LEAD_DAYS, -1, -1)]
    air = [{"mean_c": daily[(date(LEAP, one.month, one.day) - date(LEAP, 1, 1)).days]} for one in days]
    found: float = ask("warmth.soil", days=air, depth_mm=depth_mm)["daily_c"][-1]
    return found
