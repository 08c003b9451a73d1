"""F52: a row silently missing, old or too many is found by comparing digests part by part, and mended."""

from typing import Any

import pytest
from django.test import Client

from tests.sync.conftest import House, signed_in
from tests.sync.phone import Phone, digest_of

ZONE = "0190aaaa-0000-7000-8000-000000000001"


def bucket(row: dict[str, Any]) -> str:
    """The bucket of a record, worked out apart from the server's code."""
    value = 0x811C9DC5
    for byte in f"{row['t']}|{row['id']}".encode():
        value = (value ^ byte) * 0x01000193 % 2**32
    return f"{value:08x}"


class Repairer:
    """A phone that looks for what it holds wrongly."""

    def __init__(self, house: House, phone: Phone, client: Client) -> None:
        self.phone, self._client = phone, client
        self._path = house.path.replace("/sync", "/digest")
        self.asked: list[str] = []

    def ask(self, prefix: str) -> dict[str, Any]:
        self.asked.append(prefix)
        response = self._client.get(self._path, {"prefix": prefix})
        assert response.status_code == 200, response.content
        answer: dict[str, Any] = response.json()
        assert answer["head"] == self.phone.cursor
        return answer

    def mine(self, prefix: str) -> dict[str, dict[str, Any]]:
        return {key: row for key, row in self.phone.records.items() if bucket(row).startswith(prefix)}

    def mend(self, prefix: str = "") -> None:
        theirs = self.ask(prefix)
        for digit, child in theirs.get("children", {}).items():
            if digest_of(self.mine(prefix + digit)) != child["digest"]:
                self.mend(prefix + digit)
        if "records" in theirs:
            for key in self.mine(prefix):
                del self.phone.records[key]
            self.phone.records.update({f"{row['t']}:{row['id']}": row for row in theirs["records"]})


@pytest.fixture
def repairer(house: House) -> Repairer:
    house.mine.write("zone", ZONE, name={"name": "Verge"})
    for number in range(150):
        house.mine.log("observation", text=f"Seen {number}")
    house.mine.sync()
    house.theirs.sync()
    return Repairer(house, house.theirs, signed_in(house.member))


def test_f52_a_book_that_is_whole_needs_one_question(repairer: Repairer) -> None:
    assert repairer.ask("")["digest"] == repairer.phone.digest == repairer.phone.answer["digest"]


@pytest.mark.parametrize("harm", ["missing", "old", "too many"])
def test_f52_one_wrong_row_is_found_and_mended_by_few_records(repairer: Repairer, house: House, harm: str) -> None:
    records = repairer.phone.records
    key = next(key for key in records if key.startswith("entry:"))
    if harm == "missing":
        del records[key]
    elif harm == "old":
        records[key] = {**records[key], "seq": records[key]["seq"] - 1}
    else:
        strange = "0190eeee-0000-7000-8000-000000000001"
        records[f"entry:{strange}"] = {**records[key], "id": strange, "seq": 3}
    assert repairer.phone.digest != repairer.phone.answer["digest"]
    repairer.mend()
    assert repairer.phone.records == house.mine.records
    assert repairer.phone.digest == repairer.phone.answer["digest"]
    assert len(repairer.asked) <= 3


def test_f52_a_bucket_of_four_digits_shows_its_records(repairer: Repairer) -> None:
    key, row = next(iter(repairer.phone.records.items()))
    found = repairer.ask(bucket(row)[:4])
    assert key in {f"{one['t']}:{one['id']}" for one in found["records"]}
    assert found["count"] == len(found["records"])


@pytest.mark.parametrize("prefix", ["g", "A", "000000000", "-1"])
def test_f52_f16_a_prefix_that_is_none_is_400(repairer: Repairer, house: House, prefix: str) -> None:
    response = signed_in(house.member).get(house.path.replace("/sync", "/digest"), {"prefix": prefix})
    assert (response.status_code, list(response.json()["fields"])) == (400, ["prefix"])
