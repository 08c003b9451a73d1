"""What the grass is fed: the ledger and its limits."""

from lawn.engine.core.glossary import WORDS, add

add(
    {
        "slow_share": ("slow-release share of the nitrogen", "share", 0.0, 1.0),
        "water_edge_m": ("edge at the water", "m", 0.1, 5000.0),
        "setback_m": ("ground kept clear of water", "m", 0.0, 100.0),
        "guarded_m": ("ground kept clear of water with a deflector", "m", 0.0, 100.0),
        "n_max_month_kg_m2": ("nitrogen of a month of the best growth", "kg/m2", 0.0, 0.01),
        "free_in_ten_weeks_share": ("share free after ten warm weeks", "share", 0.01, 0.99),
        "less_share": ("share that clippings save", "share", 0.0, 0.25),
        "soil_c": ("soil temperature", "C", -40.0, 60.0),
        "monthly_mean_c": ("mean temperature of a month", "C", -60.0, 60.0),
    }
)
WORDS.update({"source": "kind of nitrogen", "applied": "day of the feed", "feeds": "list of feeds", "level": "level"})
