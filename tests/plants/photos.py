"""Faults in the server's keeping of pictures (S19, F45, F46)."""

from tests.plants.fault import Planted, by

_CHECK = "lawn/photos/check.py"
_UPLOAD = "lawn/photos/upload.py"
_CHECKED = "tests/api/pictures/test_photo_check.py"
_PHOTOS = "tests/api/pictures/test_photos.py"

PLANTS = (
    Planted(
        "picture_hash_not_checked",
        "Bytes are kept under a name that is not their hash.",
        _CHECK,
        "if hashlib.sha256(data).hexdigest() != sha256:",
        "if not hashlib.sha256(data).hexdigest():",
        by(_CHECKED, "test_another_hash_is_refused"),
    ),
    Planted(
        "picture_size_cap_dropped",
        "A picture of any size is taken.",
        _CHECK,
        "if len(data) > MOST_BYTES:",
        "if len(data) > MOST_BYTES**2:",
        by(_CHECKED, "test_too_many_bytes_are_refused_before_anything_else_is_looked_at"),
    ),
    Planted(
        "camera_notes_allowed",
        "A picture that says where it was taken is kept and shown to all.",
        "lawn/contract/jpeg.py",
        "    if marker == _APP0:\n",
        "    if marker == _APP1:\n        return True\n    if marker == _APP0:\n",
        by(_CHECKED, "test_s19_a_picture_that_says_where_it_was_taken_is_refused"),
    ),
    Planted(
        "kept_unchecked",
        "A picture gets its name before anyone has looked at it.",
        _UPLOAD,
        "check(file.read(), sha256)",
        "file.read()",
        by(_CHECKED, "test_a_refused_picture_begins_anew_and_leaves_nothing_behind"),
    ),
    Planted(
        "chunk_after_a_gap_taken",
        "A chunk that begins after what has come is put behind it all the same.",
        _UPLOAD,
        "if chunk.first > have:",
        "if chunk.first > chunk.total:",
        by(_PHOTOS, "test_a_gap_is_refused_and_an_overlap_is_passed_over"),
    ),
    Planted(
        "pictures_in_one_heap",
        "Pictures of all households lie together: knowing a name is enough to see another one's.",
        "lawn/photos/files.py",
        "return folder(household_id) / sha256[:2] / sha256\n",
        "return folder(uuid.UUID(int=0)) / sha256[:2] / sha256\n",
        by(_PHOTOS, "test_p10_a_hash_tells_nothing_of_another_household"),
    ),
)
