"""What becomes of a request on its way, drawn from the seed."""

import json
import random
from dataclasses import dataclass, field

from tests.simulation.desk import Answer

NOTHING = Answer(0, None)
PORTAL = Answer(200, "<html><body>Sign in to the café</body></html>", {"Content-Type": "text/html; charset=utf-8"})
REDIRECT = Answer(0, "", {})
TIMEOUT_MS = 30_000
CODES = (400, 401, 403, 404, 409, 413, 426, 429, 500, 502, 503)

# Each is one way in which a request can end; what reaches the server, and what comes back.
FATES = (
    "lost_question", "refused", "lost_answer", "cut", "doubled", "late", "portal", "redirect",
    "code", "killed_before", "killed_after", "page",
)  # fmt: skip


def code(chance: random.Random) -> Answer:
    """Return a refusal, with or without Retry-After, in our form or as some proxy's page."""
    status = chance.choice(CODES)
    headers = {"Content-Type": "application/json"}
    if chance.random() < 0.5:
        headers["Retry-After"] = str(chance.choice([1, 30, 600, 10**6]))
    if chance.random() < 0.3:
        return Answer(status, "<html>no</html>", {**headers, "Content-Type": "text/html"})
    return Answer(status, json.dumps({"code": "later", "message": "Not now."}), headers)


@dataclass
class Weather:
    """The network of one phone: how often something goes wrong, and what."""

    kinds: list[str] = field(default_factory=list)
    share: float = 0.0
    down: bool = False
    # what stands in the way of everything for a while: a portal, an expired sign-in
    wall: Answer | None = None
    # a proxy that lets through no more than this
    most_bytes: int | None = None

    def fate(self, chance: random.Random) -> str:
        """Draw what becomes of a request; "fine" for nothing."""
        if not self.kinds or chance.random() >= self.share:
            return "fine"
        return chance.choice(self.kinds)
