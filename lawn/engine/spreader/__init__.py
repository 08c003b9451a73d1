"""The spreader as a thing: its hopper and how evenly it throws."""

from lawn.engine.core.glossary import add

add(
    {
        "top_length_m": ("hopper length at the top", "m", 0.05, 2.0),
        "top_width_m": ("hopper width at the top", "m", 0.05, 2.0),
        "bottom_length_m": ("hopper length at the bottom", "m", 0.01, 2.0),
        "bottom_width_m": ("hopper width at the bottom", "m", 0.01, 2.0),
        "level_share": ("level in the hopper", "share", 0.0, 1.0),
        "capacity_kg": ("what a full hopper holds", "kg", 0.001, 10000.0),
        "sample_kg": ("weight of the measured product", "kg", 0.005, 100.0),
        "sample_m3": ("volume of the measured product", "m3", 0.00005, 0.1),
        "tray_spacing_m": ("distance from tray to tray", "m", 0.05, 5.0),
        "trays_apart": ("trays from track to track", "trays", 1, 200),
        "cv_limit_share": ("unevenness allowed", "share", 0.01, 1.0),
    }
)
