"""Writing into a book from the server, as the demo does."""

import pytest

from lawn.book.sync.author import Pen
from lawn.models import Household, Op
from lawn.models.ids import new_id
from tests.factories import NOW, DeviceFactory, KeeperFactory

pytestmark = pytest.mark.django_db


def seen(text: str) -> list[dict[str, object]]:
    body = {"kind": "observation", "occurred_at": "2026-05-01T18:30:00+02:00", "text": text}
    return [{"t": "entry", "id": str(new_id()), "body": body}]


def test_a_pen_writes_more_than_one_push_holds_in_order() -> None:
    keeper = KeeperFactory.create()
    pen = Pen(keeper, DeviceFactory.create(member=keeper))
    results = pen.write([seen(f"Seen {number}") for number in range(201)], NOW)
    assert [result["s"] for result in results] == ["applied"] * 201
    assert [result["seq"] for result in results] == list(range(3, 204))
    assert Household.objects.get().seq == 203
    assert sorted(Op.objects.values_list("dseq", flat=True)) == list(range(1, 202))


def test_a_pen_whose_line_was_written_by_another_hand_says_so() -> None:
    keeper = KeeperFactory.create()
    device = DeviceFactory.create(member=keeper)
    first, second = Pen(keeper, device), Pen(keeper, device)
    second.incarnation = first.incarnation
    first.write([seen("One")], NOW)
    with pytest.raises(ValueError, match="another hand"):
        second.write([seen("Two")], NOW)
