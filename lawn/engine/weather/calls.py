"""The calls of this topic: name, function, arguments that must be given, arguments that may be given."""

from lawn.engine.weather import join, months, sunset, table

TYPE_CHECKING = False
if TYPE_CHECKING:  # never true at run time: MicroPython has no typing module
    from typing import Any

CALLS: "dict[str, tuple[Any, tuple[str, ...], tuple[str, ...]]]" = {
    "weather.join": (join.join, ("first", "last", "today"), ("own", "fetched", "climate_c")),
    "weather.months": (months.months, ("days",), ()),
    "weather.sunset": (sunset.sunset, ("latitude_deg", "longitude_deg", "date"), ()),
    "weather.read_table": (
        table.read_table,
        ("table", "today"),
        ("temperature_unit", "rain_unit", "wind_unit", "date_order"),
    ),
}
