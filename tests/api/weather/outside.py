"""A weather service of the tests' own: answers what it is told to, at once, slowly, wrongly or without end."""

import json
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import date, timedelta
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any
from urllib.parse import parse_qs, urlsplit

Answer = Callable[["Asked"], None]


class Asked(BaseHTTPRequestHandler):
    """One question to the service."""

    server: "Outside"

    def do_GET(self) -> None:
        """Note what was asked, and answer as told."""
        self.server.asked.append(self.path)
        self.server.answer(self)

    @property
    def params(self) -> dict[str, str]:
        """What stands behind the question mark."""
        return {name: values[0] for name, values in parse_qs(urlsplit(self.path).query).items()}

    def reply(self, body: bytes, status: int = 200) -> None:
        """Answer with a body."""
        self.send_response(status)
        self.send_header("Content-Type", "application/json")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:
        """Keep quiet."""


class Outside(ThreadingHTTPServer):
    """The service; `asked` holds the addresses it was asked at."""

    daemon_threads = True

    def __init__(self, answer: Answer) -> None:
        super().__init__(("127.0.0.1", 0), Asked)
        self.answer, self.asked = answer, list[str]()
        threading.Thread(target=self.serve_forever, daemon=True).start()

    @property
    def url(self) -> str:
        """Where it is."""
        return f"http://127.0.0.1:{self.server_port}"


@contextmanager
def serving(answer: Answer) -> Iterator[Outside]:
    """The service while it is needed."""
    service = Outside(answer)
    try:
        yield service
    finally:
        service.shutdown()
        service.server_close()


def daily(first: date, count: int, **changed: Any) -> dict[str, Any]:
    """Days as the service tells them: lists beside a list of dates."""
    days = [(first + timedelta(days=at)).isoformat() for at in range(count)]
    told = {
        "time": days,
        "temperature_2m_min": [4.0] * count,
        "temperature_2m_max": [14.0] * count,
        "precipitation_sum": [1.5] * count,
        "et0_fao_evapotranspiration": [2.0] * count,
        "wind_speed_10m_max": [3.0] * count,
    }
    return {"latitude": 41.6, "daily": told | changed}


def good(ask: Asked) -> None:
    """Three days about today, or ten years of means."""
    if "start_date" in ask.params:
        first, last = date.fromisoformat(ask.params["start_date"]), date.fromisoformat(ask.params["end_date"])
        count = (last - first).days + 1
        means = [float((first + timedelta(days=at)).month) for at in range(count)]
        body = {"daily": {**daily(first, count)["daily"], "temperature_2m_mean": means}}
        return ask.reply(json.dumps({"daily": {k: body["daily"][k] for k in ("time", "temperature_2m_mean")}}).encode())
    return ask.reply(json.dumps(daily(date.today() - timedelta(days=1), 3)).encode())


def says(body: object, status: int = 200) -> Answer:
    """Answer always the same."""
    text = body if isinstance(body, bytes) else json.dumps(body).encode()
    return lambda ask: ask.reply(text, status)
