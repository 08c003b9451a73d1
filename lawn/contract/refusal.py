"""Why a picture is not taken, by its own form."""


class Refused(Exception):
    """The picture itself is not one the store keeps; sending the same bytes again would not help."""

    def __init__(self, code: str, message: str) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
