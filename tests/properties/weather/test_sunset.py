"""The sun is at the horizon when the engine says that it sets, by an outside library's position of the sun."""

import pandas  # type: ignore[import-untyped]
from hypothesis import given
from hypothesis import strategies as st
from pvlib.solarposition import get_solarposition  # type: ignore[import-untyped]

from lawn.engine.door import call

HORIZON_DEG = -0.833  # the sun's upper edge, with the air's refraction
DAYS = st.dates(min_value=pandas.Timestamp("1990-01-01").date(), max_value=pandas.Timestamp("2060-12-31").date())


@given(latitude=st.floats(-65, 65), longitude=st.floats(-180, 180), day=DAYS)
def test_at_sunset_and_sunrise_the_sun_is_at_the_horizon(latitude: float, longitude: float, day: object) -> None:
    value = call("weather.sunset", {"latitude_deg": latitude, "longitude_deg": longitude, "date": str(day)})["value"]
    if value["state"] != "sets":
        assert value["sunset_min"] is value["sunrise_min"] is None
        return
    midnight = pandas.Timestamp(str(day), tz="UTC")
    edges = [midnight + pandas.Timedelta(minutes=value[name]) for name in ("sunrise_min", "sunset_min")]
    stands = get_solarposition(pandas.DatetimeIndex(edges), latitude, longitude)["elevation"]
    assert all(abs(float(one) - HORIZON_DEG) < 0.05 for one in stands), stands
    assert value["sunrise_min"] < value["noon_min"] < value["sunset_min"]
