"""What the log adds up to."""

from lawn.engine.core.glossary import add

add(
    {
        "bought_kg": ("product bought", "kg", 0.0, 20000.0),
        "keep_off_hours": ("hours to keep off", "h", 0.0, 720.0),
        "interval_days": ("least days between applications", "day", 0.0, 365.0),
        "mow_every_days": ("days between cuts", "day", 1.0, 60.0),
    }
)
