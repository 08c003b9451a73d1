"""The project's settings, serving the bench's empty page instead of the app."""

import os
from pathlib import Path

from lawn.settings import *  # noqa: F403

FRONTEND_DIST = Path(os.environ["EVENFALL_BENCH_PAGE"])
PWA_SERVICE_WORKER_PATH = str(FRONTEND_DIST / "serviceworker.js")
