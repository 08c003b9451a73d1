"""Routes of the calendar."""

from django.urls import path

from api.calendar import views

urlpatterns = [
    path("households/<uuid:household>/calendar", views.Link.as_view(), name="calendar-link"),
    path("households/<uuid:household>/calendar/off", views.Off.as_view(), name="calendar-off"),
    path("calendar/<str:token>.ics", views.Feed.as_view(), name="calendar"),
]
