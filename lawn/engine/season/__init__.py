"""The season: windows of the year's jobs, what the grass needs in them, and the model its plan is found by."""

from lawn.engine.core.glossary import WORDS, add

add(
    {
        "daily_mean_c": ("usual mean temperature of a day", "C", -80.0, 80.0),
        "edge_c": ("temperature that opens or closes a window", "C", -30.0, 60.0),
        "edge_potential": ("growth that opens or closes a window", "share", 0.0, 1.0),
        "month": ("month of the northern year", "month", 1, 12),
        "shift_days": ("days off the mark", "day", -200, 200),
    }
)
WORDS["climate"] = "climate"
WORDS["jobs"] = "list of jobs of the year"
WORDS["first"] = "first day"
