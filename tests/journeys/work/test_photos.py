"""A photo taken without signal: small, upright and without its place, through many cuts, to every phone."""

import re
from collections.abc import Callable, Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageOps

from tests import pictures
from tests.journeys import acts
from tests.journeys.book import Book
from tests.journeys.browsers import MakePhone
from tests.journeys.demo import set_light
from tests.journeys.line import Line, poor_line
from tests.journeys.phone import Phone
from tests.journeys.server import Server

LARGE = 'return document.querySelector(".pick input:not([capture])")'
CAMERA = 'return document.querySelector(".pick input[capture]")'
ONLINE = "window.dispatchEvent(new Event('online'))"
PRINT = 'const img = document.querySelector(".print img"); return img && img.complete && img.naturalWidth'
SHOWN = """
const img = document.querySelector(".viewer img");
const full = img?.src.startsWith("blob:") && img.complete && img.naturalWidth;
return full ? [img.naturalWidth, img.naturalHeight] : null;
"""
PHOTOS = acts.OUTBOX.replace("outbox", "photos")
# A camera's picture lies on its side and says so: shown upright, its first row is the right-hand side.
ON_ITS_SIDE = 6
CUTS = 20
CUTS_S = 180  # each cut is followed by a pause
CHUNK = 256 * 1024


@pytest.fixture
def line(server: Server) -> Iterator[Line]:
    with poor_line(server) as line:
        yield line


@pytest.fixture
def new_phone(make_phone: MakePhone, line: Line, pictures: Path, lasting: bool) -> Iterator[Callable[[], Phone]]:
    """Phones behind the poor line."""
    made: list[Phone] = []

    def make() -> Phone:
        made.append(make_phone(line.url, pictures, lasting=lasting))
        return made[-1]

    yield make
    for phone in made:
        phone.quit()


@pytest.fixture
def shot(tmp_path: Path) -> Path:
    """What a camera gives: too large, on its side, with the place it was taken at; busy, so that it packs badly."""
    picture = pictures.noise(2400, 1800)
    for at, colour in zip(corners(picture, 300), ("red", "lime", "blue", "white"), strict=True):
        picture.paste(colour, at)
    path = tmp_path / "shot.jpg"
    path.write_bytes(pictures.jpeg(picture, quality=92, exif=pictures.camera(ON_ITS_SIDE)))
    return path


def corners(picture: Image.Image, side: int) -> list[tuple[int, int, int, int]]:
    right, down = picture.width - side, picture.height - side
    return [(x, y, x + side, y + side) for y in (0, down) for x in (0, right)]


def colours(picture: Image.Image) -> list[tuple[bool, ...]]:
    """Each corner's red, green and blue, on or off."""
    side = picture.width // 20
    centres = [((left + right) // 2, (up + down) // 2) for left, up, right, down in corners(picture, side)]
    plain = picture.convert("RGB")
    return [tuple(part > 128 for part in plain.getpixel(at)) for at in centres]  # type: ignore[union-attr]


def give(phone: Phone, way: str, file: Path) -> None:
    phone.give_file(phone.wait(lambda: phone.element(way), "no way to a picture"), file)


def photos_here(phone: Phone) -> dict[str, Any]:
    """What lies in this phone's table of pictures: state by name."""
    return {row["sha256"]: row["state"] for row in phone.evaluate(PHOTOS)}


def stored(server: Server, book: Book) -> dict[str, bytes]:
    """The household's whole pictures on the server's disk."""
    return {path.name: path.read_bytes() for path in server.data.glob(f"photos/{book.household}/??/*")}


@pytest.mark.lasting
def test_s19_f45_a_photo_taken_without_signal_comes_through_twenty_cuts(
    new_phone: Callable[[], Phone], server: Server, line: Line, book: Book, shot: Path
) -> None:
    zone = book.zone("Verge")
    phone = new_phone()
    acts.signed_in(phone, book.email)
    phone.see_role("button", "Mowed: Verge")
    acts.wait_installed(phone)
    server.stop()
    phone.open(f"/ground/{zone}")
    phone.see_role("heading", "Photos")
    give(phone, LARGE, shot)
    phone.see("Photo saved on this phone.")
    phone.see_role("button", "Photo, waiting to be sent")
    phone.wait(lambda: phone.evaluate(PRINT), "the thumbnail does not show")
    [name] = photos_here(phone)

    # Taken away and started again without signal: it is still there.
    phone.restart()
    phone.open(f"/ground/{zone}")
    phone.see_role("button", "Photo, waiting to be sent")

    line.cuts.extend(["body", "body", "body", "body", "answer"] * (CUTS // 5))
    server.start()

    def down_to(cuts: int) -> bool:
        phone.evaluate(ONLINE)  # as a phone says when it believes to have signal again
        return len(line.cuts) <= cuts

    phone.wait(lambda: down_to(CUTS // 2), "the uploads do not use up the cuts", patience_s=CUTS_S)
    server.kill()
    assert name not in stored(server, book)
    server.start()
    phone.wait(lambda: down_to(0), "the uploads do not use up the cuts", patience_s=CUTS_S)
    phone.wait(lambda: phone.evaluate(ONLINE) or photos_here(phone) == {name: "sent"}, "it is not sent")
    phone.see_role("button", "Photo")

    data = stored(server, book)[name]
    assert len(data) > (CUTS // 5 - 1) * CHUNK  # so that each answer lost brought it a chunk further
    assert pictures.name(data) == name
    with Image.open(BytesIO(data)) as kept, Image.open(shot) as camera:
        assert not kept.getexif()
        assert set(kept.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density", "icc_profile"}
        assert (kept.width, kept.height) == (1200, 1600)
        assert colours(kept) == colours(ImageOps.exif_transpose(camera))

    second = new_phone()
    acts.signed_in(second, book.email)
    second.open(f"/ground/{zone}")
    second.tap("button", "Photo")
    second.wait(lambda: second.evaluate(SHOWN) == [1200, 1600], "the full picture does not come")
    second.see("On this phone and on the server.")
    second.wait(lambda: photos_here(second) == {name: "sent"}, "the picture does not lie on the second phone")


@pytest.mark.lasting
def test_f47_where_the_photos_phone_is_lost_the_others_keep_the_thumbnail_and_say_so(
    new_phone: Callable[[], Phone], server: Server, line: Line, book: Book, shot: Path
) -> None:
    zone = book.zone("Verge")
    lost = new_phone()
    acts.signed_in(lost, book.email)
    line.no_uploads = True
    lost.open(f"/ground/{zone}")
    give(lost, CAMERA, shot)
    lost.see("Photo saved on this phone.")
    lost.see_role("link", "1 photo waiting")  # the entry goes though the picture cannot (P8)
    acts.wait_waiting(lost, 0)
    [name] = photos_here(lost)
    assert photos_here(lost) == {name: "waiting"}
    lost.kill_page()  # and nobody ever opens it again

    other = new_phone()
    acts.signed_in(other, book.email)
    other.open(f"/ground/{zone}")
    other.wait(lambda: other.evaluate(PRINT), "the thumbnail does not show")
    other.tap("button", "Photo")
    other.see(re.compile("The full picture is on a phone that has not sent it"))
    assert name not in stored(server, book)
    assert photos_here(other) == {}


def test_an_observation_carries_its_photo_and_caption_and_gives_it_up_again(
    new_phone: Callable[[], Phone], book: Book, shot: Path
) -> None:
    phone = new_phone()
    phone.size(360, 640)
    acts.signed_in(phone, book.email)
    acts.place(phone, "Log")
    phone.tap("button", "Add observation")
    phone.fill("What you noticed", "Rust on the leaves")
    give(phone, LARGE, shot)
    phone.see_role("button", "Remove photo 1")
    phone.reload()  # a form left half way: words and photo are still there
    phone.tap("button", "Add observation")
    phone.see_role("button", "Remove photo 1")
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("photo-form")
    phone.tap("button", "Save")
    phone.see("Saved in the log.")
    phone.tap("link", re.compile("^Observation"))
    phone.tap("button", re.compile("^Photo"))
    phone.wait(lambda: phone.evaluate(SHOWN), "the picture does not show")
    phone.tap("button", "Add a caption")
    phone.fill("Caption", "Orange dust on the blade")
    phone.tap("button", "Save the caption")
    phone.see("Orange dust on the blade")
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("photo-viewer")
    phone.tap("button", "Remove")
    phone.see("Photo removed.")
    phone.wait(lambda: phone.count("button", re.compile("^Photo")) == 0, "the print is still there")
    phone.tap("button", "Undo")
    phone.see_role("button", re.compile("^Photo, Orange dust on the blade"))
    assert phone.axe() + phone.layout_faults() == []
    phone.screenshot("photo-entry")


def test_a_zones_photo_is_as_well_to_be_seen_at_dusk_and_on_a_desk(
    new_phone: Callable[[], Phone], book: Book, shot: Path
) -> None:
    zone = book.zone("Verge")
    phone = new_phone()
    acts.signed_in(phone, book.email)
    set_light(phone, "Dusk")
    phone.open(f"/ground/{zone}")
    give(phone, LARGE, shot)
    phone.see("Photo saved on this phone.")
    phone.gone("Photo saved on this phone.")  # with the offer to undo it, which would lie over the prints
    for width, height, name in ((360, 640, "photo-zone"), (1280, 900, "photo-zone-desk")):
        phone.size(width, height)
        phone.wait(lambda: phone.evaluate(PRINT), "the thumbnail does not show")
        phone.evaluate("document.querySelector('.prints').scrollIntoView({ block: 'center', behavior: 'instant' })")
        assert phone.axe() + phone.layout_faults() == []
        phone.screenshot(name)
        phone.tap("button", re.compile("^Photo"))
        phone.wait(lambda: phone.evaluate(SHOWN), "the picture does not show")
        assert phone.axe() + phone.layout_faults() == []
        phone.screenshot(f"{name}-viewer")
        phone.tap("button", "Close")


def test_what_is_no_picture_is_said_to_be_none_and_nothing_is_saved(
    new_phone: Callable[[], Phone], book: Book, tmp_path: Path
) -> None:
    zone = book.zone("Verge")
    phone = new_phone()
    acts.signed_in(phone, book.email)
    phone.open(f"/ground/{zone}")
    words = tmp_path / "words.jpg"
    words.write_text("These are words.")
    give(phone, LARGE, words)
    phone.see("words.jpg can’t be read as a picture. Choose a JPEG, PNG or HEIC picture.")
    assert photos_here(phone) == {}
    assert acts.waiting(phone) == 0
