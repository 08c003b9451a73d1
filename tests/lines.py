"""What is shared by tests that speak over bare sockets."""

import socket


def to_the_end(line: socket.socket) -> bytes:
    """What the server says until it hangs up; a time-out is a failure."""
    said = b""
    try:
        while got := line.recv(65536):
            said += got
    except ConnectionError:
        pass
    return said
