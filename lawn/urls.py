"""Every address of the site: the API, the operator's admin, the app's files, and the app itself."""

from django.conf import settings
from django.contrib import admin
from django.urls import include, path, re_path

from api.accounts.operator import OperatorForm
from lawn.web import built_files

handler400 = "api.errors.bad_request"
handler404 = "lawn.web.built_files.not_found"
handler500 = "lawn.web.built_files.failed"

admin.site.login_form = OperatorForm
# An address of the app: not the API, the admin or static files, and not shaped like a file.
_APP_ADDRESS = r"^(?!(?:api|admin|static|assets)(?:/|$))[^.]*$"

urlpatterns = [
    path("api/v1/", include("api.urls")),
    *([path(settings.ADMIN_PATH, admin.site.urls)] if settings.ADMIN_PATH else []),
    path("serviceworker.js", built_files.worker, name="serviceworker"),
    path("manifest.json", built_files.manifest, name="manifest"),
    re_path(_APP_ADDRESS, built_files.page, name="app"),
]
