"""A household on the real server: uvicorn in its own process, a database file, phones in threads.

Set EVENFALL_TEST_DATABASE to a postgresql:// address of an empty database to run the same tests there.
"""

import os
import threading
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import httpx

from tests.journeys.server import Server
from tests.sync.phone import Phone

ANSWER_S = 180  # only a failure waits this long

Result = TypeVar("Result")


class LiveServer(Server):
    """The journeys' server, on PostgreSQL where the tester names one."""

    @property
    def environment(self) -> dict[str, str]:
        """What the server runs with."""
        named = os.environ.get("EVENFALL_TEST_DATABASE")
        return {**super().environment, **({"DATABASE_URL": named} if named else {})}

    def lay_out(self) -> None:
        """Lay out the tables, by the migrations where a database is named."""
        if os.environ.get("EVENFALL_TEST_DATABASE"):
            self.manage("migrate", "--verbosity", "0")
        else:
            super().lay_out()


class Guest:
    """A signed-in person, from whom phones of their household come."""

    def __init__(self, url: str) -> None:
        self.http = httpx.Client(base_url=f"{url}/api/v1/", timeout=ANSWER_S)
        self.household = ""

    def ask(self, path: str, body: dict[str, Any]) -> dict[str, Any]:
        """POST and insist on success."""
        response = self.http.post(path, json=body)
        assert response.is_success, response.text
        answer: dict[str, Any] = response.json()
        return answer

    def sign_up(self, email: str) -> "Guest":
        """Become a person with a household."""
        body = {"name": "Sam", "email": email, "password": "four wet spaniels", "household_name": "Alder Bend"}
        me = self.ask("accounts/sign-up", {**body, "units": "us"})
        self.household = me["households"][0]["id"]
        return self

    def join(self, inviter: "Guest", email: str) -> "Guest":
        """Join another's household by an invitation."""
        link = inviter.ask(f"households/{inviter.household}/invitations", {})["link"]
        body = {"token": link.rsplit("/", 1)[1], "name": "Kim", "email": email, "password": "four wet spaniels"}
        self.household = self.ask("accounts/join", body)["households"][0]["id"]
        return self

    def phone(self) -> Phone:
        """A new phone of this person, with a connection of its own."""
        device = self.ask(f"households/{self.household}/devices", {"name": "Phone"})["device"]
        line = httpx.Client(base_url=self.http.base_url, cookies=self.http.cookies, timeout=ANSWER_S)

        def post(body: dict[str, Any]) -> dict[str, Any]:
            response = line.post(f"households/{self.household}/sync", json=body)
            assert response.status_code == 200, response.text
            answer: dict[str, Any] = response.json()
            return answer

        return Phone(post, device)


def at_once(jobs: Sequence[Callable[[], Result]]) -> list[Result]:
    """Run the jobs in threads that set off together; return their results, or raise the first trouble."""
    gate = threading.Barrier(len(jobs))
    results: dict[int, Result] = {}
    troubles: list[BaseException] = []

    def run(number: int, job: Callable[[], Result]) -> None:
        gate.wait()
        try:
            results[number] = job()
        except BaseException as trouble:
            troubles.append(trouble)

    threads = [threading.Thread(target=run, args=(number, job)) for number, job in enumerate(jobs)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if troubles:
        raise troubles[0]
    return [results[number] for number in range(len(jobs))]
