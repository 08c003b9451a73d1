"""Routes of one household."""

from django.urls import path

from api.households import views

urlpatterns = [
    path("households/<uuid:household>/invitations", views.Invitations.as_view(), name="invitations"),
    path("households/<uuid:household>/devices", views.Devices.as_view(), name="devices"),
]
