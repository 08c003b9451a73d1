"""What a label says, in weight, nitrogen, bags and money."""

from lawn.engine.core.glossary import add

add(
    {
        "net_kg": ("net weight", "kg", 0.01, 2000.0),
        "coverage_m2": ("coverage", "m2", 0.5, 100000.0),
        "k2o_percent": ("potash on the label", "%", 0.0, 100.0),
        "price": ("price of one bag", "money", 0.0, 100000.0),
        "tolerance_share": ("tolerance", "share", 0.0, 0.5),
    }
)
