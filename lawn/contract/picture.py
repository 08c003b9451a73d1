"""Whether bytes are a bare picture that decodes whole: of photos and of the thumbnails within records."""

import warnings
from io import BytesIO

from PIL import Image

from lawn.contract.jpeg import check_bare
from lawn.contract.refusal import Refused

_MODES = ("RGB", "L")


def check_picture(data: bytes, most_px: int) -> tuple[int, int]:
    """Return the width and height of a bare picture that decodes whole; raise Refused for any other."""
    check_bare(data)
    return _decoded(data, most_px)


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
