"""Why a picture is not taken now, though nothing is wrong with it."""


class Full(Exception):
    """The household has as many photos as the server keeps for it, or the disk has no room: later perhaps."""


class Gap(Exception):
    """A chunk that begins after what has come so far; `have_bytes` says where to go on."""

    def __init__(self, have_bytes: int) -> None:
        super().__init__(f"{have_bytes} bytes have come so far")
        self.have_bytes = have_bytes
