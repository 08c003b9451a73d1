"""Addresses of syncing, under households/{id}/.

Their neighbours bootstrap, digest, events and photos belong to a later issue (sync.md).
"""

from django.urls import path

from api.sync.views import SyncView

urlpatterns = [
    path("households/<uuid:household>/sync", SyncView.as_view(), name="sync"),
]
