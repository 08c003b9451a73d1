"""The Django app of the HTTP interface: no models, only views."""

from django.apps import AppConfig


class ApiConfig(AppConfig):
    """Accounts, households and sync over JSON."""

    name = "api"
    verbose_name = "Evenfall's interface"

    def ready(self) -> None:
        """Let drf-spectacular know of our own parts."""
        from api import schema  # noqa: F401
