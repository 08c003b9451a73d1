"""The Django app that holds the domain."""

from django.apps import AppConfig


class LawnConfig(AppConfig):
    """Models, the household's book, the engine and the commands."""

    name = "lawn"
    label = "lawn"
    verbose_name = "Swardbook"
