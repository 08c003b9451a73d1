"""Whether a picture that has come whole is one the store keeps."""

import hashlib

from PIL import Image

from lawn.contract import kinds
from lawn.contract.picture import check_picture
from lawn.contract.refusal import Refused

_RULES = kinds.settings_fields("photo")
MOST_BYTES: int = _RULES["size_bytes"]["high"]
MOST_PX: int = _RULES["width_px"]["high"]
# No other code of the server opens pictures, so the library's own guard can stand this low for the whole process.
Image.MAX_IMAGE_PIXELS = MOST_PX * MOST_PX


def check(data: bytes, sha256: str) -> tuple[int, int]:
    """Return the picture's width and height in pixels; raise Refused unless it may be kept under that name.

    The file's form is looked at before anything is decoded, and its size before its pixels are: neither a small file
    that unpacks to gigabytes nor one of a thousand scans gets as far as the decoder. Then it is decoded whole.
    """
    if len(data) > MOST_BYTES:
        raise too_large()
    if hashlib.sha256(data).hexdigest() != sha256:
        raise Refused("wrong_hash", "What came is not what was announced. Send the picture again from its beginning.")
    return check_picture(data, MOST_PX)


def too_large() -> Refused:
    """Return the refusal of a picture of too many bytes."""
    return Refused("too_large", f"The picture is too large. Allowed: at most {MOST_BYTES:,} bytes.")
