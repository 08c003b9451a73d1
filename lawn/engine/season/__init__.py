"""The season: windows of the year's jobs, what the grass needs in them, and the model its plan is found by."""

from lawn.engine.core.glossary import WORDS, add

add(
    {
        "daily_mean_c": ("usual mean temperature of a day", "C", -80.0, 80.0),
        "edge_c": ("temperature that opens or closes a window", "C", -30.0, 60.0),
        "edge_potential": ("growth that opens or closes a window", "share", 0.0, 1.0),
        "month": ("month of the northern year", "month", 1, 12),
        "shift_days": ("days off the mark", "day", -200, 200),
        "weeks": ("weeks", "weeks", 1, 60),
        "aim_n_kg_m2": ("nitrogen aimed at in a year", "kg/m2", 0.0, 0.1),
        "aim_lb_kft2": ("yearly aim of a printed share", "lb/1000 ft2", 0.0, 20.0),
        "share": ("share of the year", "share", 0.0, 1.0),
        "need_n_kg_m2": ("nitrogen asked for in a week", "kg/m2", 0.0, 0.1),
        "job_minutes": ("minutes a job takes", "min", 1.0, 600.0),
        "net_kg": ("net weight", "kg", 0.01, 2000.0),
        "price": ("price of one bag", "money", 0.0, 100000.0),
        "stock_kg": ("product in the shed", "kg", 0.0, 20000.0),
        "interval_days": ("least days between applications", "day", 0.0, 365.0),
        "wait_days": ("days from a pre-emergent to seeding", "day", 0.0, 365.0),
        "evenings_week": ("evenings a week", "evenings", 0.0, 7.0),
        "evening_minutes": ("minutes of an evening", "min", 5.0, 1440.0),
        "evening_cost": ("worth of an evening", "money", 0.0, 1000.0),
        "spend_most": ("money to spend at most", "money", 0.0, 1000000.0),
        "missed_cost_kg_n": ("cost of a kilogram of nitrogen missed", "money/kg", 0.0, 100000.0),
        "job_missed_cost": ("cost of a job left out", "money", 0.0, 100000.0),
        "solution": ("value of a column", "value", -1000000.0, 1000000.0),
        "bound": ("cost no plan is under", "money", -1e9, 1e9),
        "moved_cost": ("cost of a step moved", "money", 0.0, 100000.0),
    }
)
WORDS["climate"] = "climate"
WORDS["jobs"] = "list of jobs of the year"
WORDS["first"] = "first day asked about"
WORDS["groups"] = "list of groups"
WORDS["rules"] = "rules"
WORDS["wishes"] = "wishes"
WORDS["done"] = "list of what was done"
WORDS["locked"] = "list of locked steps"
WORDS["source"] = "kind of nitrogen"
WORDS["grid"] = "weeks in which feeds may begin"
