"""What the weather's routes take in and give out."""

from typing import Any

from rest_framework import serializers

STATES = ("off", "not_on", "no_place", "waiting", "known")
CLIMATE_STATES = ("off", "no_place", "trouble", "known")
TROUBLES = ("", "unreachable", "slow", "failing", "too_long", "wrong", "empty")


class WeatherAsk(serializers.Serializer[Any]):
    """Where the phone's own weather ends."""

    since = serializers.CharField(
        required=False, default="", allow_blank=True, max_length=60, help_text="The cursor of the last answer"
    )


class PlaceOut(serializers.Serializer[Any]):
    """The place as the weather service is told it: to 0.1°."""

    latitude_deg = serializers.FloatField()
    longitude_deg = serializers.FloatField()


class DayOut(serializers.Serializer[Any]):
    """One day; what the service did not say is absent."""

    date = serializers.DateField()
    min_c = serializers.FloatField(required=False)
    max_c = serializers.FloatField(required=False)
    rain_mm = serializers.FloatField(required=False)
    et0_mm = serializers.FloatField(required=False)
    wind_m_s = serializers.FloatField(required=False)


class WeatherOut(serializers.Serializer[Any]):
    """What is known of the household's weather, as far as it is new to the phone that asks."""

    state = serializers.ChoiceField(choices=STATES, help_text="not_on: no keeper has turned the forecast on")
    place = PlaceOut(allow_null=True)
    fetched_at = serializers.DateTimeField(allow_null=True, help_text="When the service last answered")
    trouble = serializers.ChoiceField(choices=TROUBLES, help_text="Why its last try brought nothing")
    cursor = serializers.CharField(help_text="To be sent as since next time")
    whole = serializers.BooleanField(help_text="The days are all there are, in the place of what the phone has")
    days = DayOut(many=True)


class ForecastIn(serializers.Serializer[Any]):
    """Whether the household's place, rounded to 0.1°, may be told to the weather service."""

    on = serializers.BooleanField(
        error_messages={
            "required": "Whether it is to be on is missing: say true or false.",
            "null": "Whether it is to be on is missing: say true or false.",
            "invalid": "Whether it is to be on cannot be read: say true or false.",
        }
    )


class ForecastOut(serializers.Serializer[Any]):
    """Whether the forecast is on; the same travels to every phone with the household's record."""

    on = serializers.BooleanField()


class ClimateOut(serializers.Serializer[Any]):
    """Twelve monthly means of the place, or why there are none."""

    state = serializers.ChoiceField(choices=CLIMATE_STATES)
    trouble = serializers.ChoiceField(choices=TROUBLES, required=False)
    monthly_mean_c = serializers.ListField(child=serializers.FloatField(), required=False)
    years = serializers.CharField(required=False, help_text="The years they are the means of")
