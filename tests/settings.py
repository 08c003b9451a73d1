"""The project's settings, with what a test run needs its own: a database file, quick hashing, no throttle."""

import atexit
import shutil
import tempfile
from pathlib import Path

from lawn.settings import *  # noqa: F403
from lawn.settings import DATABASES, REST_FRAMEWORK, THROTTLE_RATES

# A file, not memory: threads of a test then meet the same locks as the real thing. One folder a process,
# so that parallel workers and parallel runs never share one.
_folder = Path(tempfile.mkdtemp(prefix="evenfall-test-"))
atexit.register(shutil.rmtree, _folder, ignore_errors=True)
if str(DATABASES["default"]["ENGINE"]).endswith("sqlite3"):
    DATABASES["default"]["TEST"] = {"NAME": str(_folder / "test.sqlite3")}

PHOTOS_DIR = _folder / "photos"

# Argon2 is slow by design; tests/api/people/test_accounts.py checks that the real settings use it.
PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]

# The throttles themselves are tested by turning them on (tests/api/people/test_throttles.py).
REST_FRAMEWORK = {**REST_FRAMEWORK, "DEFAULT_THROTTLE_RATES": dict.fromkeys(THROTTLE_RATES)}

# Off by default; here it is on, under a path of the tests' own.
ADMIN_PATH = "admin/of-the-tests/"

# No test asks anything of the world outside; those of the weather name a server of their own.
WEATHER = WEATHER_ARCHIVE = ""
