"""Cutting."""

from lawn.engine.core.glossary import add

add(
    {
        "highest_mm": ("highest setting of the mower", "mm", 10.0, 200.0),
        "height_mm": ("height of the grass", "mm", 2.0, 2000.0),
        "target_mm": ("height of cut wanted", "mm", 2.0, 200.0),
    }
)
