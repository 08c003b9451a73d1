"""Settings and the data folder."""

import stat
from collections.abc import Iterator
from pathlib import Path
from urllib.parse import urlsplit

from django.conf import settings
from django.core.checks import ERROR, run_checks

from lawn.operations.doctor.finding import Finding

_HERE = ("localhost", "127.0.0.1", "::1")


def findings() -> Iterator[Finding]:
    """Yield what is wrong with how the server is set up."""
    yield from _settings()
    yield from _private(Path(settings.DATA_DIR))
    yield from (Finding(f"{message.msg} ({message.id})") for message in run_checks() if message.level >= ERROR)


def _settings() -> Iterator[Finding]:
    if settings.DEBUG:
        yield Finding("EVENFALL_DEBUG is on: error pages show settings and rows. Turn it off.")
    parts = urlsplit(settings.ADDRESS)
    if parts.scheme != "https" and parts.hostname not in _HERE:
        yield Finding(
            f"EVENFALL_ADDRESS is {settings.ADDRESS}: passwords and cookies travel unhidden, and phones do not "
            "install the app. Put a proxy with TLS before it and use https (README, Hosting)."
        )
    if "*" in settings.ALLOWED_HOSTS:
        yield Finding("EVENFALL_HOSTS allows every host name. Name the ones people use.")
    if not settings.SECRET_KEY or len(settings.SECRET_KEY) < 32:
        yield Finding("The secret key is shorter than 32 characters. Remove EVENFALL_SECRET_KEY to have one made.")


def _private(folder: Path) -> Iterator[Finding]:
    """Yield what people of this machine other than the server's own user may read of it."""
    if not _open_to_others(folder):
        return  # nobody gets as far as the files
    for path in sorted(folder.glob("*")):
        if path.is_file() and _open_to_others(path):
            yield Finding(f"Everybody on this machine can read {path}. Say: chmod 700 {folder}")
            return


def _open_to_others(path: Path) -> bool:
    return bool(path.stat().st_mode & (stat.S_IROTH | stat.S_IXOTH if path.is_dir() else stat.S_IROTH))
