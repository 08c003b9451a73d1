"""A household's weather: what is known of it, whether it may be fetched, and its climate."""

import hashlib
import uuid

from django.http import HttpResponse
from django.utils import timezone
from django.utils.decorators import method_decorator
from django.views.decorators.gzip import gzip_page
from drf_spectacular.utils import OpenApiParameter, OpenApiResponse, extend_schema
from rest_framework.exceptions import PermissionDenied
from rest_framework.renderers import JSONRenderer
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import APIView

from api.accounts.reading import error, read
from api.households.inside import NO, member_of, only
from api.weather.serializers import ClimateOut, ForecastIn, ForecastOut, WeatherAsk, WeatherOut
from api.weather.throttles import KeeperPerPerson, WeatherPerPerson
from lawn.book.people import consent
from lawn.weather import series

_TAG = ["weather"]
_ONLY = "Only a keeper of the household turns the forecast on or off."
_ONLY_CLIMATE = "Only a keeper of the household has its climate looked up."
_MATCH = OpenApiParameter(
    "If-None-Match", str, OpenApiParameter.HEADER, description="The validator of the last answer (RFC 9110, 13.1.2)"
)


def _validator(state: dict[str, object]) -> str:
    """Return the validator of what is known; which of it is new to a phone, its cursor in the address says."""
    return f'W/"{hashlib.sha256(JSONRenderer().render(state)).hexdigest()[:32]}"'


@method_decorator(gzip_page, name="dispatch")
class Weather(APIView):
    """What is known."""

    throttle_classes = [WeatherPerPerson]

    @extend_schema(
        operation_id="weather",
        tags=_TAG,
        parameters=[WeatherAsk, _MATCH],
        responses={200: WeatherOut, 304: OpenApiResponse(None, "As before"), 400: error("since is wrong"), **NO},
    )
    def get(self, request: Request, household: uuid.UUID) -> HttpResponse:
        """Give the days that are new since the phone's cursor, with their age; 304 where nothing is."""
        member = member_of(request, household)
        asked = WeatherAsk(data=request.query_params)
        asked.is_valid(raise_exception=True)
        known = series.known(member.household, asked.validated_data["since"], timezone.now())
        body = WeatherOut(known).data
        tag = _validator({name: value for name, value in body.items() if name not in ("whole", "days")})
        said = [one.strip() for one in request.headers.get("If-None-Match", "").split(",")]
        headers = {"ETag": tag, "Cache-Control": "private, no-cache"}
        return Response(status=304, headers=headers) if tag in said else Response(body, headers=headers)


class Forecast(APIView):
    """Turn it on or off."""

    throttle_classes = [KeeperPerPerson]

    @extend_schema(
        operation_id="weather_forecast",
        tags=_TAG,
        request=ForecastIn,
        responses={200: ForecastOut, 400: error("on is wrong"), 403: error("Only a keeper may"), **NO},
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Allow the place, rounded to 0.1°, to be told to the weather service, or no longer."""
        member = member_of(request, household)
        on = read(ForecastIn, request)["on"]
        with only(_ONLY):
            changed = consent.set_forecast(member, on, timezone.now())
        return Response(ForecastOut({"on": bool(changed.forecast)}).data)


class Climate(APIView):
    """Look it up."""

    throttle_classes = [KeeperPerPerson]

    @extend_schema(
        operation_id="weather_climate",
        tags=_TAG,
        request=None,
        responses={200: ClimateOut, 403: error("Only a keeper may"), **NO},
    )
    def post(self, request: Request, household: uuid.UUID) -> Response:
        """Give the twelve monthly means of the place from the weather service's archive, asked by a keeper's tap."""
        member = member_of(request, household)
        if not member.is_keeper:
            raise PermissionDenied(_ONLY_CLIMATE)
        return Response(ClimateOut(series.climate(member.household, timezone.now())).data)
