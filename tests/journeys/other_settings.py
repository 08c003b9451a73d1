"""The project's settings, serving another build than the one that lies in the front end's folder."""

import os
from pathlib import Path

from lawn.settings import *  # noqa: F403

FRONTEND_DIST = Path(os.environ["JOURNEYS_BUILD"])
FORMER_BUILDS = FRONTEND_DIST.parent / "former"
PWA_SERVICE_WORKER_PATH = str(FRONTEND_DIST / "serviceworker.js")
