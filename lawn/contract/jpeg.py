"""The form of a JPEG file, read without decoding it (ITU-T T.81, annex B: markers and their order).

A photo may hold the picture and what is needed to show it, nothing else: no place it was taken at, no camera's number,
no words, no second picture, no other file hidden before or behind it.
"""

import re
import warnings
from collections.abc import Iterator
from dataclasses import dataclass

from PIL import Image

from lawn.contract.refusal import Refused

_SOI, _EOI, _SOS = 0xD8, 0xD9, 0xDA
_APP0, _APP1, _APP2, _APP14 = 0xE0, 0xE1, 0xE2, 0xEE
_FRAMES = (0xC0, 0xC1, 0xC2)  # baseline, extended and progressive, Huffman coded
_TABLES = (0xC4, 0xDB, 0xDD)  # Huffman tables, quantisation tables, restart interval
# In coded data 0xFF is followed by 0x00 or is a restart marker; anything else ends the scan. 0xFF may also fill.
_END_OF_SCAN = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]")
_BARE_JFIF_BYTES = 16  # without the little picture that JFIF allows in its header (ITU-T T.871, 10.1)
_ADOBE_BYTES = 12  # the name, a version, two flags and the transform (ITU-T T.872, 6.5.3)
_ICC = b"ICC_PROFILE\0\x01\x01"  # the first part of one: a profile of several is none that a phone writes
_ICC_HEADER_BYTES = 128
MOST_PROFILE_BYTES = 8192
_GPS_IFD = 0x8825  # Exif 2.32, 4.6.3: the pointer to the GPS fields
# A progressive picture needs about ten scans. Each of thousands would cost a whole pass of decoding.
MOST_SCANS = 64


@dataclass(frozen=True)
class Segment:
    """One marker and what follows it; coded data is left out."""

    marker: int
    content: bytes


def _damaged(why: str) -> Refused:
    return Refused("damaged", f"This is not a whole JPEG picture: {why}.")


def segments(data: bytes) -> Iterator[Segment]:
    """Yield the file's segments from SOI to EOI; raise Refused where it breaks off or goes on behind the end."""
    if data[:2] != b"\xff\xd8":
        raise Refused("not_jpeg", "Only JPEG pictures are kept; this file is something else.")
    at = 2
    while True:
        marker, at = _marker(data, at)
        if marker == _EOI:
            break
        end = at + int.from_bytes(data[at : at + 2])
        if end < at + 2 or end > len(data):
            raise _damaged("it breaks off")
        yield Segment(marker, data[at + 2 : end])
        at = _after_scan(data, end) if marker == _SOS else end
    if at != len(data):
        raise _damaged("other data follows the picture")


def _marker(data: bytes, at: int) -> tuple[int, int]:
    """Return the marker that stands at `at`, and where what follows it begins."""
    if data[at : at + 1] != b"\xff":
        raise _damaged("it breaks off" if at >= len(data) else "its parts do not follow one another")
    while data[at : at + 1] == b"\xff":
        at += 1
    if at >= len(data):
        raise _damaged("it breaks off")
    return data[at], at + 1


def _after_scan(data: bytes, at: int) -> int:
    found = _END_OF_SCAN.search(data, at)
    if found is None:
        raise _damaged("it breaks off")
    return found.start()


def check_bare(data: bytes) -> None:
    """Raise Refused unless the file holds one picture and nothing beside it."""
    found = list(segments(data))
    for segment in found:
        if not _belongs(segment):
            raise _beside(segment)
    frames = [segment for segment in found if segment.marker in _FRAMES]
    scans = sum(segment.marker == _SOS for segment in found)
    beside = [segment.marker for segment in found if segment.marker in (_APP0, _APP2, _APP14)]
    if len(beside) != len(set(beside)):
        raise _damaged("it says the same thing twice before the picture")
    if len(frames) != 1 or not scans:
        raise _damaged("it does not hold exactly one picture")
    if scans > MOST_SCANS:
        raise Refused("too_large", f"The picture is coded in {scans} scans; at most {MOST_SCANS} are decoded.")


def _belongs(segment: Segment) -> bool:
    marker, content = segment.marker, segment.content
    if marker == _APP0:
        return content.startswith(b"JFIF\0") and len(content) + 2 == _BARE_JFIF_BYTES
    if marker == _APP2:
        return _is_colour_profile(content)
    if marker == _APP14:
        return content.startswith(b"Adobe") and len(content) == _ADOBE_BYTES
    return marker in _FRAMES or marker in _TABLES or marker == _SOS


def _is_colour_profile(content: bytes) -> bool:
    """Whether it is one whole colour profile of modest size, by its own header (ICC.1:2022, 7.2 and annex B.4)."""
    name, profile = content[: len(_ICC)], content[len(_ICC) :]
    size = int.from_bytes(profile[:4])
    return (
        name == _ICC and _ICC_HEADER_BYTES <= size == len(profile) <= MOST_PROFILE_BYTES and profile[36:40] == b"acsp"
    )


def _beside(segment: Segment) -> Refused:
    """Say what else is in the file, where it was taken first of all."""
    if segment.marker == _APP1 and _tells_place(segment.content):
        return Refused("location_inside", "The picture says where it was taken. The phone must take that out first.")
    if 0xE0 <= segment.marker <= 0xEF or segment.marker == 0xFE:
        return Refused(
            "metadata_inside", "The picture carries notes of the camera. The phone must take them out first."
        )
    return _damaged(f"it uses the marker FF{segment.marker:02X}, which no phone's picture needs")


def _tells_place(content: bytes) -> bool:
    if not content.startswith(b"Exif\0\0"):
        return b"GPS" in content  # XMP names its fields in words
    exif = Image.Exif()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            exif.load(content)
            return bool(exif.get_ifd(_GPS_IFD))
    except Exception:  # whatever a broken block does to its reader: it is refused in any case
        return False
