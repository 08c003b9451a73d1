"""Routes of a household's pictures."""

from django.urls import path

from api.photos import views

urlpatterns = [
    path("households/<uuid:household>/photos/missing", views.Missing.as_view(), name="photos-missing"),
    path("households/<uuid:household>/photos/<str:sha256>", views.Picture.as_view(), name="photo"),
    path("households/<uuid:household>/photos/<str:sha256>/upload", views.Upload.as_view(), name="photo-upload"),
]
