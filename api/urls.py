"""The routes under /api/v1/, one include per resource."""

from django.urls import include, path

from api.schema_view import SchemaView

urlpatterns = [
    path("schema", SchemaView.as_view(), name="schema"),
    path("", include("api.accounts.urls")),
    path("", include("api.households.urls")),
    path("", include("api.sync.urls")),
    path("", include("api.photos.urls")),
    path("", include("api.weather.urls")),
    path("", include("api.calendar.urls")),
]
