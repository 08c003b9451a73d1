"""Pictures for tests, drawn by Pillow: so much like a camera's as a test needs."""

import base64
import hashlib
from fractions import Fraction
from io import BytesIO
from typing import Any

from PIL import Image

_GPS_IFD, _EXIF_IFD, _ORIENTATION, _MAKE = 0x8825, 0x8769, 0x0112, 0x010F


def noise(width: int, height: int, seed: int = 1) -> Image.Image:
    """A picture that does not pack well, another for each seed."""
    count = width * height * 3
    block = b"".join(hashlib.sha256(f"{seed}-{at}".encode()).digest() for at in range(64))
    return Image.frombytes("RGB", (width, height), (block * (count // len(block) + 1))[:count])


def quarters(width: int, height: int) -> Image.Image:
    """Four plain quarters that show which way is up: red and green above, blue and white below."""
    picture = Image.new("RGB", (width, height), "white")
    for at, colour in (((0, 0), "red"), ((width // 2, 0), "lime"), ((0, height // 2), "blue")):
        picture.paste(colour, (*at, at[0] + width // 2, at[1] + height // 2))
    return picture


def jpeg(picture: Image.Image, **options: Any) -> bytes:
    """The picture as JPEG, bare."""
    out = BytesIO()
    picture.save(out, "JPEG", **options)
    return out.getvalue()


def name(data: bytes) -> str:
    """What the store calls a picture."""
    return hashlib.sha256(data).hexdigest()


def base64_of(data: bytes) -> str:
    """A thumbnail as a record carries it."""
    return base64.b64encode(data).decode()


def location() -> Image.Exif:
    """Exif as a phone's camera writes it: the place, and a camera's make (invented)."""
    exif = Image.Exif()
    exif[_MAKE] = "Invented camera"
    exif.get_ifd(_GPS_IFD).update({1: "N", 2: _degrees(41, 36, 0), 3: "W", 4: _degrees(93, 36, 0)})
    return exif


def camera(orientation: int) -> Image.Exif:
    """Exif with a place, and the picture lying on its side (Exif 2.32, 4.6.4: orientation)."""
    exif = location()
    exif[_ORIENTATION] = orientation
    return exif


def _degrees(degrees: int, minutes: int, seconds: int) -> tuple[Fraction, Fraction, Fraction]:
    return Fraction(degrees), Fraction(minutes), Fraction(seconds)
