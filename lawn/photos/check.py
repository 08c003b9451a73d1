"""Whether a picture that has come whole is one the store keeps."""

import hashlib
import warnings
from io import BytesIO

from PIL import Image

from lawn.book.contract import kinds
from lawn.photos.jpeg import check_bare
from lawn.photos.refusal import Refused

_RULES = kinds.settings_fields("photo")
MOST_BYTES: int = _RULES["size_bytes"]["high"]
MOST_PX: int = _RULES["width_px"]["high"]
# No other code of the server opens pictures, so the library's own guard can stand this low for the whole process.
Image.MAX_IMAGE_PIXELS = MOST_PX * MOST_PX
_MODES = ("RGB", "L")


def check(data: bytes, sha256: str) -> tuple[int, int]:
    """Return the picture's width and height in pixels; raise Refused unless it may be kept under that name.

    The file's form is looked at before anything is decoded, and its size before its pixels are: neither a small file
    that unpacks to gigabytes nor one of a thousand scans gets as far as the decoder. Then it is decoded whole.
    """
    if len(data) > MOST_BYTES:
        raise too_large()
    if hashlib.sha256(data).hexdigest() != sha256:
        raise Refused("wrong_hash", "What came is not what was announced. Send the picture again from its beginning.")
    return check_picture(data)


def check_picture(data: bytes, most_px: int = MOST_PX) -> tuple[int, int]:
    """Return the width and height of a bare picture that decodes whole; raise Refused for any other."""
    check_bare(data)
    return _decoded(data, most_px)


def too_large() -> Refused:
    """Return the refusal of a picture of too many bytes."""
    return Refused("too_large", f"The picture is too large. Allowed: at most {MOST_BYTES:,} bytes.")


def _decoded(data: bytes, most_px: int) -> tuple[int, int]:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            with Image.open(BytesIO(data), formats=("JPEG",)) as picture:
                size, mode = picture.size, picture.mode
                if max(size) <= most_px and mode in _MODES:
                    picture.load()
    except (Image.DecompressionBombWarning, Image.DecompressionBombError):
        raise _too_wide(most_px) from None
    except Exception as why:  # the decoder's own words differ by what is broken; each is a verdict on the file
        raise Refused("damaged", f"The picture cannot be decoded: {why}.") from why
    if max(size) > most_px:
        raise _too_wide(most_px)
    if mode not in _MODES:
        raise Refused("damaged", f"The picture's colours are {mode}. Allowed: RGB or grey.")
    return size


def _too_wide(most_px: int) -> Refused:
    return Refused("too_large", f"The picture is too wide or too high. Allowed: at most {most_px:,} pixels a side.")
