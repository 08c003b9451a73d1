"""Limits: what no plan and no log should do, by rules that are data."""

from lawn.engine.core.glossary import WORDS, add

add(
    {
        "most_kg_m2": ("most that a rule allows", "kg/m2", 0.0, 50.0),
        "over_days": ("days of a rule", "day", 0.0, 400.0),
        "within_years": ("years a soil test counts", "year", 0.0, 20.0),
        "limit_c": ("temperature of a rule", "C", -20.0, 50.0),
        "limit_mm": ("rain of a rule", "mm", 0.0, 500.0),
        "clear_m": ("ground kept clear of water", "m", 0.0, 100.0),
        "least_slow_share": ("least slow-release share", "share", 0.0, 1.0),
        "guarded_m": ("ground kept clear of water with a deflector", "m", 0.0, 100.0),
        "p_mg_kg": ("phosphorus in the soil", "mg/kg", 0.0, 5000.0),
        "soil_c": ("soil temperature", "C", -40.0, 60.0),
        "uses_year": ("uses in a year", "uses", 0.0, 100.0),
        "seed_wait_days": ("days from a pre-emergent to sowing", "day", 0.0, 400.0),
        "label_kg_m2": ("rate of the label", "kg/m2", 0.0, 50.0),
        "year_kg_m2": ("most of a product in a year", "kg/m2", 0.0, 50.0),
    }
)
WORDS.update(
    {
        "jobs": "list of jobs",
        "rules": "list of rules",
        "soil_tests": "list of soil tests",
        "grass": "grass",
        "from": "first day",
        "to": "last day",
        "place": "place",
        "sown": "day it was sown",
        "mows": "list of mows",
        "places": "list of places",
        "own_rules": "list of own rules",
        "grasses": "list of grasses",
        "general": "list of ranges",
    }
)
