"""The Django app that holds the domain."""

from django.apps import AppConfig
from django.db.backends.signals import connection_created
from django.db.models.signals import post_migrate


class LawnConfig(AppConfig):
    """Models, the household's book, the engine and the commands."""

    name = "lawn"
    label = "lawn"
    verbose_name = "Evenfall"

    def ready(self) -> None:
        """Hear of new connections (S11, F55) and of migrations (F43)."""
        from lawn.book.sync import retry
        from lawn.operations import epoch

        # Every new connection to PostgreSQL tells which server it reached.
        connection_created.connect(epoch.on_connection, dispatch_uid="lawn.operations.epoch")
        # What was parked as of an unknown kind is tried again once a migration has brought the kind (F43).
        post_migrate.connect(retry.after_migrate, sender=self, dispatch_uid="lawn.book.sync.retry")
