"""The routes under /api/v1/, one include per resource."""

from django.urls import include, path
from drf_spectacular.views import SpectacularJSONAPIView

urlpatterns = [
    path("schema", SpectacularJSONAPIView.as_view(), name="schema"),
    path("", include("api.accounts.urls")),
    path("", include("api.households.urls")),
    path("", include("api.sync.urls")),
    path("", include("api.photos.urls")),
    path("", include("api.weather.urls")),
]
