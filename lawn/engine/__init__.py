"""The turf arithmetic: plain Python that runs unchanged on CPython and on MicroPython in the phone."""
