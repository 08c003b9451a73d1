"""Addresses of syncing, under households/{id}/ (sync.md)."""

from django.urls import path

from api.sync.books import BootstrapView, DigestView
from api.sync.events import EventsView
from api.sync.views import SyncView

urlpatterns = [
    path("households/<uuid:household>/sync", SyncView.as_view(), name="sync"),
    path("households/<uuid:household>/bootstrap", BootstrapView.as_view(), name="bootstrap"),
    path("households/<uuid:household>/digest", DigestView.as_view(), name="digest"),
    path("households/<uuid:household>/events", EventsView.as_view(), name="events"),
]
