"""From the book to a plan's arguments: zones to groups, labels to products, the log to what is done."""

from lawn.engine.core.glossary import add

add(
    {
        "aim_n_kg_m2": ("nitrogen aimed at in a year", "kg/m2", 0.0, 0.1),
        "budget": ("money to spend at most", "money", 0.0, 1000000.0),
        "minutes_evening": ("minutes of an evening", "min", 5.0, 1440.0),
        "wait_days": ("days from a pre-emergent to seeding", "day", 0.0, 365.0),
    }
)
