"""A1, A2: a stamp or hash with something round it is refused; one in the table all the same harms nobody."""

from datetime import timedelta
from io import StringIO
from typing import Any

import pytest
from django.utils import timezone

from lawn.book.merging import clock
from lawn.models import Conflict, Household, Zone
from lawn.operations import doctor
from tests.sync.conftest import House, phone_of, signed_in
from tests.sync.phone import Phone, digest_of

ZONE = "0190aaaa-0000-7000-8000-0000000000a1"
WIDE = "　"  # a blank that trimming takes away, as wide as a letter
FAR = "9999999999999-ffff-ffffffff"
BAD_STAMPS = [
    f"{WIDE}{WIDE}{FAR}",
    f"{FAR} ",
    f" {FAR}",
    f"{FAR}\n",
    f"{FAR}\u2028",
    "٩" * 13 + "-ffff-ffffffff",
    FAR.upper(),
    f"1{FAR}",
    FAR[:-1],
    7,
    None,
    [FAR],
]


def send(house: House, op: dict[str, Any]) -> Any:
    """Push one op as it is, hashed as it says."""
    body = {**house.mine.request(), "ops": [op]}
    return signed_in(house.keeper).post(house.path, body, content_type="application/json")


def named(house: House, **parts: Any) -> dict[str, Any]:
    item = {"t": "zone", "id": ZONE, "set": {"name": {"name": "Verge"}}, "base": {"name": None}}
    return house.mine.make_op(item, **parts)


@pytest.mark.parametrize("hlc", BAD_STAMPS, ids=ascii)
def test_a01_a_stamp_with_anything_round_it_is_refused_and_named(house: House, hlc: object) -> None:
    head = house.household.seq
    answer = send(house, named(house, hlc=hlc))
    assert (answer.status_code, list(answer.json()["fields"])) == (400, ["ops.0.hlc"])
    assert house.household.seq == head


@pytest.mark.parametrize("wrap", [f"{WIDE}%s", " %s", "%s ", "%s\n", "\t%s", "%s\x0b"], ids=ascii)
def test_a01_a_hash_with_anything_round_it_is_refused_and_named(house: House, wrap: str) -> None:
    op = named(house)
    answer = send(house, {**op, "hash": wrap % op["hash"]})
    assert (answer.status_code, list(answer.json()["fields"])) == (400, ["ops.0.hash"])


@pytest.mark.parametrize(
    ("part", "value"),
    [("dseq", "1"), ("dseq", " 1"), ("dseq", 1.0), ("dseq", True), ("schema", "1"), ("hash", 10**63), ("hlc", True)],
    ids=ascii,
)
def test_a01_a_part_of_another_sort_is_refused_and_named_never_turned_into_one(
    house: House, part: str, value: object
) -> None:
    answer = send(house, {**named(house), part: value})
    assert (answer.status_code, list(answer.json()["fields"])) == (400, [f"ops.0.{part}"])


def test_a01_an_id_in_another_spelling_is_handed_on_as_checked(house: House) -> None:
    """What phones never write but UUIDs allow: the op is known by its id however it is spelled."""
    op = named(house)
    assert send(house, {**op, "op": op["op"].upper()}).json()["results"][0]["s"] == "applied"
    again = send(house, {**op, "op": "{" + op["op"] + "}"}).json()["results"][0]
    assert (again["op"], again["s"]) == (op["op"], "duplicate")


# --- what already stands in the table ------------------------------------------------------------


def spoilt(house: House, hlc: str) -> None:
    """A zone both phones hold, whose stamp was spoilt past the book: by an older build, or a doctored archive."""
    house.mine.write("zone", ZONE, name={"name": "Verge"}, deleted={"deleted": False})
    house.mine.sync()
    spoil(hlc)
    house.theirs.sync()


def spoil(hlc: str) -> None:
    """Put a stamp beside the zone's name, past the book."""
    row = Zone.objects.get()
    row.versions["name"]["hlc"] = hlc
    Zone.objects.update(versions=row.versions)


class Wary(Phone):
    """A phone that takes no note of what is no stamp, as the real one does."""

    def hear(self, change: dict[str, Any]) -> None:
        groups = {name: kept for name, kept in change["groups"].items() if clock.is_stamp(kept["hlc"])}
        super().hear({**change, "groups": groups})


def wary(house: House) -> Wary:
    found = phone_of(house.member)
    return Wary(found.post, found.device)


@pytest.mark.parametrize("bad", [f"{WIDE}{WIDE}{FAR}", FAR, "", "soon", "99999999999999-0000-00000000"], ids=ascii)
def test_a02_a_bad_stamp_in_the_table_freezes_nothing_whether_the_writer_saw_it_or_not(house: House, bad: str) -> None:
    house.theirs = wary(house)
    spoilt(house, bad)
    unaware = wary(house)
    house.theirs.write("zone", ZONE, name={"name": "Seen and changed"})
    assert house.theirs.sync()["results"][0]["s"] == "applied"
    stamp = Zone.objects.get().versions["name"]["hlc"]
    assert clock.is_stamp(stamp)
    spoil(bad)
    op = unaware.save({"t": "zone", "id": ZONE, "set": {"name": {"name": "Not seen"}}, "base": {"name": None}})
    assert unaware.sync()["results"][0]["op"] == op["op"]
    assert unaware.see("zone", ZONE, "name") == {"name": "Not seen"}


@pytest.mark.parametrize("bad", ["", "soon", f"{WIDE}{FAR}", FAR])
def test_a02_clock_later_and_clamp_always_return_a_stamp(bad: str) -> None:
    good = "1700000000000-0001-0000000a"
    assert clock.later(good, bad) == good
    assert clock.is_stamp(clock.later(bad, good))
    assert clock.is_stamp(clock.later(bad, bad))
    assert clock.clamp(bad, 1_700_000_000_000) <= "1700000060000-ffff-ffffffff"
    assert clock.is_stamp(clock.clamp(bad, 1_700_000_000_000))
    assert clock.is_stamp(clock.later(good, f"{clock.LAST_MS:013d}-ffff-ffffffff"))


# --- the doctor ----------------------------------------------------------------------------------


def lost_in_a_conflict(house: House) -> None:
    house.mine.write("zone", ZONE, name={"name": "Mine"})
    house.theirs.save({"t": "zone", "id": ZONE, "set": {"name": {"name": "Theirs"}}, "base": {"name": None}})
    house.mine.sync()
    house.theirs.sync()
    conflict = Conflict.objects.get()
    Conflict.objects.update(lost={**conflict.lost, "hlc": FAR})


def ahead() -> str:
    return f"{int((timezone.now() + timedelta(days=9)).timestamp() * 1000):013d}-0000-00000000"


@pytest.mark.parametrize("bad", [f"{WIDE}{WIDE}{FAR}", FAR, "ahead"], ids=ascii)
def test_a02_the_doctor_finds_a_bad_stamp_and_mends_it_for_every_phone(house: House, bad: str) -> None:
    house.theirs = wary(house)
    spoilt(house, "1700000000000-0001-0000000a")
    lost_in_a_conflict(house)
    spoil(ahead() if bad == "ahead" else bad)
    before = {row.id: (row.name, row.deleted, row.versions["name"]["version"]) for row in Zone.objects.all()}
    found = [finding.says for finding in doctor.look() if finding.fault and "stamp" in finding.says]
    assert len(found) == 2
    assert all("manage.py doctor --repair" in says for says in found)
    said = StringIO()
    said.writelines(doctor.repair())
    assert "2 records have sound stamps again" in said.getvalue()
    assert not [finding for finding in doctor.look() if "stamp" in finding.says or "digest" in finding.says]
    assert {row.id: (row.name, row.deleted, row.versions["name"]["version"]) for row in Zone.objects.all()} == before
    house.mine.sync()
    kept = house.mine.records[f"zone:{ZONE}"]["groups"]["name"]
    assert clock.is_stamp(kept["hlc"])
    assert house.mine.digest == digest_of(house.mine.records) == house.mine.answer["digest"]
    assert Household.objects.get().seq == house.mine.answer["head"]


def test_a02_repairing_stamps_twice_does_nothing_the_second_time(house: House) -> None:
    spoilt(house, f"{WIDE}{FAR}")
    doctor.repair()
    head = house.household.seq
    assert doctor.repair() == []
    assert house.household.seq == head
