"""What the server keeps as a picture: decoded whole, bare, of the right size, under its own hash."""

import zlib
from io import BytesIO
from typing import Any

import pytest
from PIL import Image, ImageCms

from lawn.contract import forms
from lawn.contract.jpeg import MOST_SCANS
from lawn.contract.refusal import Refused
from lawn.photos import files, upload
from lawn.photos.check import MOST_BYTES, MOST_PX, check
from tests import pictures
from tests.api.conftest import Cast
from tests.api.pictures.test_photos import base, send

PLAIN = pictures.jpeg(pictures.quarters(64, 48))
PROFILE = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
SOI, EOI = b"\xff\xd8", b"\xff\xd9"


def segment(marker: int, content: bytes) -> bytes:
    return bytes([0xFF, marker]) + (len(content) + 2).to_bytes(2) + content


def with_segment(marker: int, content: bytes) -> bytes:
    """The plain picture with one more segment at its beginning."""
    return SOI + segment(marker, content) + PLAIN[2:]


def refusal(data: bytes, name: str | None = None) -> str:
    """The code under which a picture is refused."""
    with pytest.raises(Refused) as no:
        check(data, name or pictures.name(data))
    return no.value.code


@pytest.mark.parametrize(
    "options",
    [{}, {"progressive": True}, {"subsampling": 0}, {"quality": 30, "optimize": True}, {"restart_marker_rows": 1}],
)
def test_plain_pictures_of_every_usual_coding_are_kept(options: dict[str, Any]) -> None:
    data = pictures.jpeg(pictures.noise(200, 100), **options)
    assert check(data, pictures.name(data)) == (200, 100)


def test_a_grey_one_and_one_with_a_colour_profile_are_kept() -> None:
    grey = pictures.jpeg(pictures.noise(20, 10).convert("L"))
    assert check(grey, pictures.name(grey)) == (20, 10)
    profiled = pictures.jpeg(pictures.noise(20, 10), icc_profile=PROFILE)
    assert check(profiled, pictures.name(profiled)) == (20, 10)


def test_the_largest_allowed_is_kept_and_a_pixel_more_is_not() -> None:
    most = pictures.jpeg(Image.new("RGB", (MOST_PX, MOST_PX), "green"))
    assert check(most, pictures.name(most)) == (MOST_PX, MOST_PX)
    for size in ((MOST_PX + 1, 10), (10, MOST_PX + 1)):
        assert refusal(pictures.jpeg(Image.new("RGB", size, "green"))) == "too_large"


def test_another_hash_is_refused() -> None:
    assert refusal(PLAIN, "0" * 64) == "wrong_hash"


def test_too_many_bytes_are_refused_before_anything_else_is_looked_at() -> None:
    assert refusal(b"\0" * (MOST_BYTES + 1), "0" * 64) == "too_large"


@pytest.mark.parametrize("form", ["PNG", "GIF", "BMP", "WEBP", "TIFF", "PPM"])
def test_only_jpeg_is_a_picture(form: str) -> None:
    out = BytesIO()
    pictures.quarters(20, 20).save(out, form)
    assert refusal(out.getvalue()) == "not_jpeg"


@pytest.mark.parametrize("data", [b"", b"\xff", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"<!doctype html>"])
def test_what_is_no_picture_at_all_is_refused(data: bytes) -> None:
    assert refusal(data) == "not_jpeg"


def test_a_file_cut_anywhere_is_refused() -> None:
    """Every length but the whole: in the header, in the tables, in the coded data, before the end."""
    for length in range(2, len(PLAIN)):
        assert refusal(PLAIN[:length]) == "damaged", length


def test_a_decompression_bomb_is_refused_before_it_is_decoded(monkeypatch: pytest.MonkeyPatch) -> None:
    """A few kilobytes that would unpack to 65,500 × 65,500 pixels, 12 GB."""
    frame = PLAIN.index(b"\xff\xc0")
    bomb = PLAIN[: frame + 5] + (65500).to_bytes(2) * 2 + PLAIN[frame + 9 :]
    monkeypatch.setattr("PIL.ImageFile.ImageFile.load", lambda _self: pytest.fail("it was decoded"))
    assert refusal(bomb) == "too_large"


def test_a_picture_of_thousands_of_scans_is_refused_before_it_is_decoded(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each scan of a progressive picture costs a pass over all of it; a small file can ask for a hundred thousand."""
    progressive = pictures.jpeg(pictures.quarters(64, 48), progressive=True)
    last = progressive.rindex(b"\xff\xda")
    scan = progressive[last:-2]
    many = progressive[:-2] + scan * MOST_SCANS + EOI
    monkeypatch.setattr("PIL.ImageFile.ImageFile.load", lambda _self: pytest.fail("it was decoded"))
    assert refusal(many) == "too_large"


@pytest.mark.parametrize(
    "more",
    [b"\0", b"<script>alert(1)</script>", b"PK\x03\x04" + zlib.compress(b"an archive"), PLAIN],
    ids=["byte", "script", "archive", "second picture"],
)
def test_nothing_may_stand_before_or_behind_the_picture(more: bytes) -> None:
    assert refusal(PLAIN + more) == "damaged"
    if not more.startswith(SOI):
        assert refusal(more + PLAIN) == "not_jpeg"


def test_two_frames_in_one_file_are_refused() -> None:
    assert refusal(PLAIN[:-2] + PLAIN[2:]) == "damaged"


def test_s19_a_picture_that_says_where_it_was_taken_is_refused() -> None:
    assert refusal(pictures.jpeg(pictures.quarters(20, 10), exif=pictures.location())) == "location_inside"
    words = b"http://ns.adobe.com/xap/1.0/\0<rdf exif:GPSLatitude='41,36N'/>"
    assert refusal(with_segment(0xE1, words)) == "location_inside"


@pytest.mark.parametrize(
    ("marker", "content"),
    [
        (0xE1, b"Exif\0\0MM\0*\0\0\0\x08\0\0"),
        (0xE1, b"Exif\0\0nonsense"),
        (0xE1, b"http://ns.adobe.com/xap/1.0/\0<rdf/>"),
        (0xE2, b"MPF\0second picture"),
        (0xED, b"Photoshop 3.0\0"),
        (0xEA, b"anything"),
        (0xFE, b"a comment"),
        (0xE0, b"JFXX\0\x10thumbnail"),
        (0xE0, b"JFIF\0\1\1\0\0\1\0\1\1\1abc"),
    ],
)
def test_notes_beside_the_picture_are_refused(marker: int, content: bytes) -> None:
    assert refusal(with_segment(marker, content)) == "metadata_inside"


@pytest.mark.parametrize("marker", [0xC3, 0xC9, 0xCC, 0xDC, 0xF0, 0x02])
def test_markers_that_no_phones_picture_needs_are_refused(marker: int) -> None:
    assert refusal(with_segment(marker, b"\0\0")) == "damaged"


def test_four_colours_are_refused() -> None:
    assert refusal(pictures.jpeg(Image.new("CMYK", (20, 10)))) == "damaged"


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (pictures.jpeg(pictures.quarters(20, 10), exif=pictures.location()), "location_inside"),
        (b"no picture", "not_jpeg"),
        (PLAIN[:-9] + EOI + b"x", "damaged"),
    ],
)
def test_a_refused_picture_begins_anew_and_leaves_nothing_behind(cast: Cast, data: bytes, code: str) -> None:
    answer = send(cast.keeper, cast.ours.id, data)
    assert (answer.status_code, answer.json()["code"]) == (422, code)
    here = cast.keeper.get(f"{base(cast.ours.id)}/{pictures.name(data)}/upload")
    assert here.json() == {"have_bytes": 0, "complete": False}
    assert list(files.partial_folder(cast.ours.id).iterdir()) == []


def test_after_wrong_bytes_the_right_ones_are_taken(cast: Cast) -> None:
    wrong = PLAIN[:-3] + bytes([PLAIN[-3] ^ 1]) + EOI
    answer = send(cast.keeper, cast.ours.id, wrong, pictures.name(PLAIN))
    assert (answer.status_code, answer.json()["code"]) == (422, "wrong_hash")
    assert send(cast.keeper, cast.ours.id, PLAIN).json()["complete"] is True


def test_a_total_above_the_limit_is_refused_with_its_first_chunk(cast: Cast) -> None:
    with pytest.raises(Refused) as no:
        upload.take(cast.ours.id, "0" * 64, upload.Chunk(0, MOST_BYTES + 1, b"x"))
    assert no.value.code == "too_large"
    assert not files.partial_folder(cast.ours.id).exists()


# --- what may stand beside a picture is looked at as the picture is --------------------------------

ICC = b"ICC_PROFILE\0\x01\x01"
HIDDEN = {
    "a profile that is none": (0xE2, ICC + b"somebody's house key " * 20),
    "a profile with more behind it": (0xE2, ICC + PROFILE + b"more"),
    "a profile of a size it has not": (0xE2, ICC + (len(PROFILE) + 1).to_bytes(4) + PROFILE[4:]),
    "a part of several": (0xE2, b"ICC_PROFILE\0\x01\x02" + PROFILE),
    "a profile of many kilobytes": (0xE2, ICC + (9000).to_bytes(4) + PROFILE[4:] + b"\0" * (9000 - len(PROFILE))),
    "words behind the Adobe mark": (0xEE, b"Adobe\0\x64\0\0\0\0\x01 and words"),
    "an Adobe mark cut short": (0xEE, b"Adobe"),
}


@pytest.mark.parametrize("what", list(HIDDEN))
def test_a_segment_that_only_calls_itself_profile_or_mark_is_refused(what: str) -> None:
    assert refusal(with_segment(*HIDDEN[what])) == "metadata_inside"


@pytest.mark.parametrize("marker", [0xE2, 0xEE])
def test_a_profile_or_a_mark_stands_once(marker: int) -> None:
    content = ICC + PROFILE if marker == 0xE2 else b"Adobe\0\x64\0\0\0\0\x01"
    once = with_segment(marker, content)
    assert check(once, pictures.name(once)) == (64, 48)
    assert refusal(SOI + segment(marker, content) + once[2:]) == "damaged"


@pytest.mark.parametrize("what", ["a bomb", "wide", "damaged tables"])
def test_a_thumbnail_is_decoded_as_a_picture_is(what: str) -> None:
    frame = PLAIN.index(b"\xff\xc0")
    data = {
        "a bomb": PLAIN[: frame + 5] + (65500).to_bytes(2) * 2 + PLAIN[frame + 9 :],
        "wide": pictures.jpeg(Image.new("L", (700, 8)), quality=10),
        "damaged tables": PLAIN.replace(b"\xff\xc4", b"\xff\xdd", 1),
    }[what]
    sha256 = {"sha256": pictures.name(PLAIN)}
    assert forms.wrong_in_group("photo", "photo", {**sha256, "thumb": pictures.base64_of(PLAIN)}) == {}
    assert list(forms.wrong_in_group("photo", "photo", {**sha256, "thumb": pictures.base64_of(data)})) == ["thumb"]


def test_how_much_has_come_is_told_for_the_pictures_own_length(cast: Cast) -> None:
    """Another's wrong total under the same name must not send a phone on behind the end of its own."""
    name, path = pictures.name(PLAIN), f"{base(cast.ours.id)}/{pictures.name(PLAIN)}"
    upload.take(cast.ours.id, name, upload.Chunk(0, len(PLAIN) + 5000, b"x" * 5000))
    upload.take(cast.ours.id, name, upload.Chunk(0, len(PLAIN), PLAIN[:100]))
    assert cast.member.get(f"{path}/upload?total={len(PLAIN)}").json() == {"have_bytes": 100, "complete": False}
    assert cast.member.get(f"{path}/upload?total={len(PLAIN) + 1}").json()["have_bytes"] == 0
    assert cast.member.get(f"{path}/upload").json()["have_bytes"] == 100
    assert cast.member.get(f"{path}/upload?total=x").status_code == 400
    assert send(cast.member, cast.ours.id, PLAIN).json()["complete"] is True
