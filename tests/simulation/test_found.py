"""What the simulation found in the code it ran, each as the smallest test of it: lives change with the driver."""

from lawn.book.merging.merge import Sets, Write, merge_record


def test_p2_what_stands_again_after_a_deletion_is_taken_back_has_not_lost() -> None:
    """A deletion that knew of no edit is taken back; the "not deleted" that stands again was kept as lost."""
    stands = Write("1-not-deleted", "0000000000001-0000-aaaaaaaa", {"deleted": False})
    edited = Write("2-edit", "0000000000002-0000-aaaaaaaa", {"name": "Front"})
    saw: dict[str, str | None] = {"deleted": None, "name": None}
    gone = {"deleted": {"deleted": True}}
    deletion = Sets("3-deletion", "0000000000003-0000-bbbbbbbb", None, gone, saw)
    merged = merge_record({"deleted": stands, "name": edited}, deletion)
    assert merged.groups["deleted"] == stands
    assert [(lost.group, lost.write.version) for lost in merged.lost] == [("deleted", "3-deletion")]
