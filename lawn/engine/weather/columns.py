"""Which column of a table means what, and in which unit, by the words of its heading."""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

# Words of a heading that make its column one we do not take, whatever else it says.
_NOT_OURS = (
    "soil", "ground", "dew", "dewpoint", "dewpt", "humidity", "rh", "apparent", "feels", "feelslike", "windchill",
    "chill", "heat", "gust", "gusts", "pressure", "snow", "snowfall", "snowdepth", "depth", "normal", "normals",
    "departure", "dep", "flag", "qc", "quality", "hdd", "cdd", "gdd", "probability", "chance", "hours", "hour",
    "code", "direction", "record", "wetbulb", "sunshine", "radiation", "solar", "cloud", "visibility", "observed",
    "water", "sd", "anomaly",
)  # fmt: skip
_WIND = ("wind", "windspeed", "wspd", "awnd", "ws", "windmax", "wdsp")
_ET = ("et0", "eto", "et", "evapotranspiration", "pet", "etr0")
_RAIN = ("rain", "rainfall", "precip", "precipitation", "prcp", "prec", "ppt", "pcp", "rr", "rainmm", "rainin")
_MIN = ("min", "minimum", "low", "lowest", "lo", "mn", "tmin", "tn", "mintemp", "tempmin", "tminc", "tminf")
_MAX = ("max", "maximum", "high", "highest", "hi", "mx", "tmax", "tx", "maxtemp", "tempmax", "tmaxc", "tmaxf")
_MEAN = ("mean", "avg", "average", "tavg", "tmean", "tg", "temp", "temperature", "meantemp", "avgtemp")
_DATE = ("date", "day", "time", "datetime", "timestamp", "valid")
_KINDS = (("wind_m_s", _WIND), ("et0_mm", _ET), ("rain_mm", _RAIN), ("min_c", _MIN), ("max_c", _MAX), ("mean_c", _MEAN))
_UNITS = (
    ("f", ("f", "degf", "fahrenheit", "tminf", "tmaxf")),
    ("c", ("c", "degc", "celsius", "centigrade", "tminc", "tmaxc")),
    ("mm", ("mm", "millimetres", "millimeters", "rainmm")),
    ("cm", ("cm",)),
    ("in", ("in", "inch", "inches", "rainin")),
    ("km_h", ("kmh", "kph", "km")),
    ("mph", ("mph", "mi")),
    ("kn", ("kn", "kt", "kts", "knots")),
    ("m_s", ("ms", "mps", "m")),
)
_FIT = {
    "min_c": ("f", "c"),
    "max_c": ("f", "c"),
    "mean_c": ("f", "c"),
    "rain_mm": ("mm", "cm", "in"),
    "et0_mm": ("mm", "cm", "in"),
    "wind_m_s": ("km_h", "mph", "kn", "m_s"),
}


def words_in(heading: str) -> list[str]:
    """The words of a heading in lower case, parted by whatever is no letter or digit.

    Args:
        heading: the heading as written [text]
    Returns:
        words: its words [list of texts]
    Source: definition
    """
    plain = ""
    for sign in heading.lower():
        plain += sign if ("a" <= sign <= "z") or ("0" <= sign <= "9") else " "
    return [word for word in plain.split(" ") if word]


def columns_of(headings: list[str]) -> "dict[str, Any] | None":
    """What each column means; nothing where the line holds no heading of a date, or nothing about the weather.

    Args:
        headings: the headings as written [list of texts]
    Returns:
        columns: date (the places of its one column or three), figures (name, place, heading, unit or null), ignored
            (headings of the columns that are not taken) [group of values]
    Source: definition
    """
    words = [words_in(heading) for heading in headings]
    at = _date_at(words)
    if not at:
        return None
    figures: list[dict[str, object]] = []
    ignored: list[str] = []
    for place, heading in enumerate(headings):
        name = "" if place in at else _meant(words[place])
        if name and name not in [one["name"] for one in figures]:
            unit = _unit(name, words[place])
            figures.append({"name": name, "at": place, "heading": heading.strip(), "unit": unit})
        elif place not in at and heading.strip():
            ignored.append(heading.strip())
    return {"date": at, "figures": figures, "ignored": ignored} if figures else None


def _date_at(words: list[list[str]]) -> list[int]:
    """Places of year, month and day where they stand apart, else the place of the date."""
    three = [_first(words, names) for names in (("year", "yr", "yyyy"), ("month", "mo", "mon"), ("day", "dy", "dom"))]
    if min(three) >= 0:
        return three
    for place, said in enumerate(words):
        if said and said[0] in _DATE and not _is_not_ours(said):
            return [place]
    for place, said in enumerate(words):
        if "date" in said:
            return [place]
    return []


def _first(words: list[list[str]], names: tuple[str, ...]) -> int:
    for place, said in enumerate(words):
        if len(said) == 1 and said[0] in names:
            return place
    return -1


def _is_not_ours(said: list[str]) -> bool:
    return any(word in _NOT_OURS for word in said)


def _meant(said: list[str]) -> str:
    """Name of the figure that a heading speaks of; nothing where it is none of ours."""
    if _is_not_ours(said):
        return ""
    for name, known in _KINDS:
        if any(word in known for word in said):
            return name
    return ""


def _unit(name: str, said: list[str]) -> str | None:
    """Unit that a heading names; of several the first of the list, since "rain in mm" is in mm."""
    for unit, known in _UNITS:
        if unit in _FIT[name] and any(word in known for word in said):
            return unit
    return None
