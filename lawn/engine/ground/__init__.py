"""The ground: how large it is and where its edges run."""

from lawn.engine.core.glossary import add

add(
    {
        "width_m": ("width", "m", 0.01, 5000.0),
        "base_m": ("base", "m", 0.01, 5000.0),
        "a_m": ("side a", "m", 0.01, 5000.0),
        "b_m": ("side b", "m", 0.01, 5000.0),
        "c_m": ("side c", "m", 0.01, 5000.0),
        "side_a_m": ("parallel side a", "m", 0.01, 5000.0),
        "side_b_m": ("parallel side b", "m", 0.01, 5000.0),
        "length_error_share": ("likely error of one length", "share", 0.0, 0.3),
        "corner_error_m": ("likely error of a corner", "m", 0.0, 100.0),
        "lat": ("latitude", "deg", -90.0, 90.0),
        "lon": ("longitude", "deg", -180.0, 180.0),
        "accuracy_m": ("accuracy of the fix", "m", 0.0, 1.0e7),
        "worst_accuracy_m": ("worst accuracy taken", "m", 0.5, 100.0),
        "distance_error_share": ("likely error of a known distance", "share", 0.0, 0.3),
        "pointing_px": ("likely error of pointing at a corner", "px", 0.0, 100.0),
        "north_px_deg": ("direction of north on the picture", "deg", -360.0, 360.0),
    }
)
