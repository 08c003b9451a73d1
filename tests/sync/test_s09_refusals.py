"""S9: everything but a verdict inside a 200 means "later"; limits, packing and who may ask (P10)."""

import gzip
import json
import tracemalloc
import uuid
import zlib
from typing import Any

import pytest
from django.db import OperationalError
from django.test import Client

from api.errors import Refusal
from api.sync.parsers import LIMIT_BYTES, _inflate
from lawn.book.people import devices, membership
from lawn.models import Op, ParkedOp, Zone
from tests.factories import NOW, KeeperFactory
from tests.sync.conftest import House, phone_of, signed_in

ZONE = "0190aaaa-0000-7000-8000-000000000001"


def send(house: House, body: Any, client: Client | None = None, **more: Any) -> Any:
    """Post raw bytes or JSON as the keeper (or another client); return the response."""
    raw = body if isinstance(body, bytes) else json.dumps(body).encode()
    return (client or signed_in(house.keeper)).post(house.path, raw, content_type="application/json", **more)


def with_zone(house: House) -> dict[str, Any]:
    house.mine.write("zone", ZONE, name={"name": "Verge"})
    return house.mine.request()


def assert_nothing_happened(house: House, head: int) -> None:
    assert house.household.seq == head
    assert (Op.objects.count(), ParkedOp.objects.count(), Zone.objects.count()) == (0, 0, 0)


def test_s09_f17_signed_out_is_401_and_changes_nothing(house: House) -> None:
    head = house.household.seq
    response = send(house, with_zone(house), Client())
    assert (response.status_code, response.json()["code"]) == (401, "signed_out")
    assert_nothing_happened(house, head)


@pytest.mark.parametrize(
    "change",
    [
        {"ops": [{"op": "nonsense"}]},
        {"ops": ["nonsense"]},
        {"ops": 7},
        {"cursor": -1},
        {"cursor": "soon"},
        {"device": "mine"},
        {"incarnation": None},
        {"limit": 0},
        {"limit": 1001},
        {"proto": "x"},
    ],
)
def test_s09_f16_a_malformed_push_is_400_in_the_one_error_shape(house: House, change: dict[str, Any]) -> None:
    head = house.household.seq
    response = send(house, {**with_zone(house), **change})
    assert response.status_code == 400
    assert set(response.json()) == {"code", "message", "fields"}
    assert next(iter(response.json()["fields"])).split(".")[0] in change
    assert_nothing_happened(house, head)


@pytest.mark.parametrize("part", ["op", "dseq", "hlc", "schema", "m", "hash"])
def test_s09_f16_an_op_without_a_part_of_its_envelope_is_400(house: House, part: str) -> None:
    request = with_zone(house)
    del request["ops"][0][part]
    response = send(house, request)
    assert (response.status_code, list(response.json()["fields"])) == (400, [f"ops.0.{part}"])


@pytest.mark.parametrize("body", [b"[]", b"7", b"{", b"\xff\xfe", b'{"proto": NaN}', b"[" * 60_000])
def test_s09_f05_a_body_cut_short_or_not_json_is_400(house: House, body: bytes) -> None:
    response = send(house, body)
    assert (response.status_code, response.json()["code"]) == (400, "malformed")


def test_f05_a_packed_body_cut_short_is_400_and_changes_nothing(house: House) -> None:
    head = house.household.seq
    packed = gzip.compress(json.dumps(with_zone(house)).encode())
    client = signed_in(house.keeper)
    for length in [*range(0, len(packed), 40), len(packed) - 8, len(packed) - 1]:
        response = send(house, packed[:length], client, headers={"content-encoding": "gzip"})
        assert response.status_code == 400, length
    assert_nothing_happened(house, head)


def test_a_gzipped_push_is_read_and_a_gzipped_answer_given_where_accepted(house: House) -> None:
    packed = gzip.compress(json.dumps(with_zone(house)).encode())
    response = send(house, packed, headers={"content-encoding": "gzip", "accept-encoding": "gzip"})
    assert (response.status_code, response["Content-Encoding"]) == (200, "gzip")
    answer = json.loads(gzip.decompress(response.content))
    assert answer["results"][0]["s"] == "applied"
    plain = send(house, house.mine.request() | {"ops": []})
    assert "Content-Encoding" not in plain


def test_a_small_body_that_unpacks_to_gigabytes_is_413(house: House) -> None:
    response = send(house, gzip.compress(b" " * (LIMIT_BYTES + 1)), headers={"content-encoding": "gzip"})
    assert (response.status_code, response.json()["code"]) == (413, "too_large")


def test_a_packed_body_is_unpacked_only_up_to_the_limit() -> None:
    """64 MB of blanks in 64 kB: refusing it takes no more memory than a few times the limit."""
    packer = zlib.compressobj(wbits=31)
    packed = b"".join(packer.compress(b" " * 2**20) for _ in range(64)) + packer.flush()
    assert len(packed) < LIMIT_BYTES
    tracemalloc.start()
    with pytest.raises(Refusal):
        _inflate(packed)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 8 * LIMIT_BYTES


def test_an_unknown_packing_is_415(house: House) -> None:
    assert send(house, b"{}", headers={"content-encoding": "br"}).status_code == 415


def test_s09_more_than_200_ops_or_256_kB_is_413_and_changes_nothing(house: House) -> None:
    head = house.household.seq
    for _ in range(201):
        house.mine.log("mow")
    assert send(house, {**house.mine.request(), "ops": house.mine.outbox}).status_code == 413
    house.mine.outbox = house.mine.outbox[:60]
    for op in house.mine.outbox:
        op["m"][0]["body"]["measured"] = "x" * 5000
    assert send(house, house.mine.request()).status_code == 413
    assert_nothing_happened(house, head)


def test_200_ops_are_taken(house: House) -> None:
    for _ in range(200):
        house.mine.log("mow")
    assert house.mine.post(house.mine.request())["acked_dseq"] == 200


def test_s09_an_app_too_far_from_the_server_is_426_and_may_still_look(house: House) -> None:
    head = house.household.seq
    response = send(house, {**with_zone(house), "proto": 2})
    assert (response.status_code, response.json()["code"]) == (426, "update_needed")
    assert_nothing_happened(house, head)


def test_s09_s12_f54_a_busy_database_is_503_with_retry_after_and_never_a_verdict(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    def busy(*args: Any) -> None:
        raise OperationalError("database is locked")

    head, request = house.household.seq, with_zone(house)
    with monkeypatch.context() as patch:
        patch.setattr("lawn.book.sync.edit.apply_items", busy)
        response = send(house, request)
    assert (response.status_code, response.json()["code"], response["Retry-After"]) == (503, "busy", "5")
    assert_nothing_happened(house, head)
    assert house.mine.sync()["results"][0]["s"] == "applied"


def test_p10_f50_another_household_is_404_and_shows_nothing(house: House) -> None:
    stranger = phone_of(KeeperFactory.create())
    response = send(house, stranger.request(), signed_in(KeeperFactory.create()))
    assert (response.status_code, response.json()["code"]) == (404, "not_found")
    unknown = f"/api/v1/households/{uuid.uuid4()}/sync"
    there = signed_in(house.keeper).post(unknown, house.mine.request(), content_type="application/json")
    assert there.content == response.content


def test_p10_a_device_must_be_the_callers_own_in_that_household(house: House) -> None:
    elsewhere = membership.create_household(house.keeper.person, "Second home", "us", NOW)
    strange = [house.theirs.device, devices.register(elsewhere, "Phone", NOW).id, uuid.uuid4()]
    for device in strange:
        response = send(house, {**house.mine.request(), "device": str(device)})
        assert response.status_code == 404


def test_p10_a_member_no_longer_active_is_404(house: House) -> None:
    client = signed_in(house.member)
    house.member.active = False
    house.member.save(update_fields=["active"])
    assert send(house, house.theirs.request(), client).status_code == 404


def test_p10_s13_two_households_may_hold_the_same_ids_and_see_only_their_own(house: House) -> None:
    other = phone_of(KeeperFactory.create())
    other.write("zone", ZONE, name={"name": "Elsewhere"})
    other.sync()
    house.mine.write("zone", ZONE, name={"name": "Here"})
    house.mine.sync()
    other.sync()
    assert house.mine.see("zone", ZONE, "name") == {"name": "Here"}
    assert other.see("zone", ZONE, "name") == {"name": "Elsewhere"}
    assert {row["t"] for row in other.records.values()} == {"household", "member", "zone"}


@pytest.mark.parametrize(
    ("t", "who", "group", "value"),
    [
        ("household", "household", "name", {"name": "Mine now"}),
        ("member", "keeper", "name", {"name": "Not you"}),
        ("member", "member", "role", {"role": "keeper"}),
        ("member", "member", "active", {"active": False}),
    ],
)
def test_a_member_may_not_write_what_is_not_theirs(house: House, t: str, who: str, group: str, value: Any) -> None:
    ids = {"household": house.household.id, "keeper": house.keeper.id, "member": house.member.id}
    op = house.theirs.write(t, str(ids[who]), **{group: value})
    house.theirs.sync()
    assert house.theirs.results[op["op"]]["why"]["code"] == "not_allowed"


def test_an_empty_body_is_400(house: House) -> None:
    assert send(house, b"").status_code == 400


def test_a_keeper_renames_the_household_and_a_member_themselves(house: House) -> None:
    house.mine.sync()
    house.theirs.sync()
    house.mine.write("household", str(house.household.id), name={"name": "Alder Bend"})
    house.theirs.write("member", str(house.member.id), name={"name": "Sam"}, units={"units": "metric"})
    house.theirs.sync()
    house.mine.sync()
    house.theirs.sync()
    assert house.theirs.see("household", str(house.household.id), "name") == {"name": "Alder Bend"}
    assert house.mine.see("member", str(house.member.id), "units") == {"units": "metric"}
    assert house.mine.see("member", str(house.member.id), "role") == {"role": "member"}


def test_a_phone_cannot_bring_a_new_member_or_household(house: House) -> None:
    op = house.mine.write("household", str(uuid.uuid4()), name={"name": "Second"})
    house.mine.sync()
    assert house.mine.results[op["op"]]["why"]["code"] == "unknown_record"
