"""The Django app that holds the domain."""

from django.apps import AppConfig
from django.db.backends.signals import connection_created


class LawnConfig(AppConfig):
    """Models, the household's book, the engine and the commands."""

    name = "lawn"
    label = "lawn"
    verbose_name = "Swardbook"

    def ready(self) -> None:
        """Have every new connection to PostgreSQL tell which server it reached (S11, F55)."""
        from lawn.operations import epoch

        connection_created.connect(epoch.on_connection, dispatch_uid="lawn.operations.epoch")
