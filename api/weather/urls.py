"""Routes of a household's weather."""

from django.urls import path

from api.weather import views

urlpatterns = [
    path("households/<uuid:household>/weather", views.Weather.as_view(), name="weather"),
    path("households/<uuid:household>/weather/forecast", views.Forecast.as_view(), name="weather-forecast"),
    path("households/<uuid:household>/weather/climate", views.Climate.as_view(), name="weather-climate"),
]
