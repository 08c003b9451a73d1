"""One name, one meaning, one unit, one range: every number that enters the engine.

Here stand the names that several topics use; a topic adds its own when it is imported (its `__init__.py`).

Each row is name: (words, unit, lowest allowed, highest allowed). The ranges are those of
fixtures/kinds/ where a field is stored; they keep slips of the finger out, they are not advice.
"""

GLOSSARY: dict[str, tuple[str, str, float, float]] = {
    "area_m2": ("area", "m2", 0.5, 100000.0),
    "rate_kg_m2": ("product rate", "kg/m2", 0.000001, 50.0),
    "target_kg_m2": ("aim", "kg/m2", 0.000001, 50.0),
    "n_kg_m2": ("nitrogen rate", "kg/m2", 0.0, 5.0),
    "n_percent": ("nitrogen on the label", "%", 0.0, 100.0),
    "p2o5_percent": ("phosphate on the label", "%", 0.0, 100.0),
    "slow_n_share": ("slow-release share of the nitrogen", "share", 0.0, 1.0),
    "bags": ("bags", "bags", 0.001, 1000.0),
    "length_m": ("length", "m", 0.01, 5000.0),
    "height_m": ("height", "m", 0.01, 5000.0),
    "radius_m": ("radius", "m", 0.01, 5000.0),
    "spacing_m": ("spacing of the offsets", "m", 0.01, 1000.0),
    "offset_m": ("offset", "m", 0.0, 5000.0),
    "coordinate_m": ("coordinate", "m", -50000.0, 50000.0),
    "x_m": ("place across", "m", -50000.0, 50000.0),
    "y_m": ("place upwards", "m", -50000.0, 50000.0),
    "x1": ("first end of the known distance, across", "px", -50000.0, 50000.0),
    "y1": ("first end of the known distance, down", "px", -50000.0, 50000.0),
    "x2": ("second end of the known distance, across", "px", -50000.0, 50000.0),
    "y2": ("second end of the known distance, down", "px", -50000.0, 50000.0),
    "distance_m": ("known distance", "m", 0.1, 5000.0),
    "bulk_density_kg_m3": ("bulk density", "kg/m3", 100.0, 2500.0),
    "mass_kg": ("mass in the hopper", "kg", 0.0, 5000.0),
    "lowest": ("lowest number on the dial", "dial", -1000.0, 1000.0),
    "highest": ("highest number on the dial", "dial", -1000.0, 1000.0),
    "step": ("one click of the dial", "dial", 0.01, 100.0),
    "dial": ("dial setting", "dial", -1000.0, 1000.0),
    "used_kg": ("product used", "kg", 0.0, 5000.0),
    "left_kg": ("product left", "kg", 0.0, 20000.0),
    "passes": ("passes", "passes", 1, 20),
    "label_share": ("aim over the label's rate", "share", 0.001, 1.0),
    "from_m2": ("ground walked over before a row", "m2", 0.0, 6000000.0),
    "to_m2": ("ground walked over once a row is walked", "m2", 0.0, 6000000.0),
    "walked": ("passes of the job", "passes", 1, 400),
    "since": ("first pass to compare with", "place", 0, 400),
    "handfuls": ("handfuls left", "handfuls", 0.0, 100000.0),
    "swath_m": ("swath", "m", 0.2, 20.0),
    "speed_m_s": ("walking speed", "m/s", 0.3, 3.0),
    "load_kg": ("product in the hopper at the start", "kg", 0.0, 5000.0),
    "strips": ("strips counted in the zone", "strips", 1, 1000),
    "covered_m2": ("ground walked before", "m2", 0.0, 6000000.0),
    "catches_g": ("catch of a tray", "g", 0.0, 10000.0),
    "cut_height_mm": ("height of cut", "mm", 5.0, 200.0),
    "n_year_kg_m2": ("nitrogen ceiling for a year", "kg/m2", 0.0, 5.0),
    "n_once_kg_m2": ("nitrogen ceiling for one feeding", "kg/m2", 0.0, 5.0),
    "n_most_kg_m2": ("nitrogen where most of it fell", "kg/m2", 0.0, 5.0),
    "p2o5_kg_m2": ("phosphate rate", "kg/m2", 0.0, 5.0),
    "p2o5_once_kg_m2": ("phosphate ceiling for one application", "kg/m2", 0.0, 5.0),
    "p2o5_year_kg_m2": ("phosphate ceiling for a year", "kg/m2", 0.0, 5.0),
    "lime_once_kg_m2": ("lime ceiling for one application", "kg/m2", 0.0, 50.0),
    "n_quick_once_kg_m2": ("quick nitrogen ceiling for one feeding", "kg/m2", 0.0, 5.0),
    "mean_c": ("mean temperature", "C", -60.0, 60.0),
    "min_c": ("lowest temperature", "C", -60.0, 60.0),
    "max_c": ("highest temperature", "C", -60.0, 60.0),
    "sd_c": ("likely error of the temperature", "K", 0.0, 15.0),
    "rain_mm": ("rain", "mm", 0.0, 1000.0),
    "et0_mm": ("water that a short grass would use", "mm", 0.0, 25.0),
    "wind_m_s": ("wind", "m/s", 0.0, 60.0),
}


def add(rows: dict[str, tuple[str, str, float, float]]) -> None:
    """Add a topic's names; one that is there already keeps its meaning, or the engine does not start.

    Args:
        rows: name and words, unit, lowest, highest [group of values]
    """
    for name in rows:
        if GLOSSARY.get(name, rows[name]) != rows[name]:
            raise ValueError(name + " means two things")
        GLOSSARY[name] = rows[name]


# Names that are not numbers, so that an error message can speak of them.
WORDS = {
    "plan": "plan of the job",
    "on_foot": "pass on foot",
    "hopper": "measures of the hopper",
    "level": "level read off the hopper",
    "stretch": "stretch at one setting",
    "goes_on": "mark that the pass goes on",
    "aim": "aim",
    "kind": "kind",
    "zones": "list of zones",
    "parts": "list of shapes",
    "shape": "shape",
    "add": "add or cut out",
    "offsets_m": "list of offsets",
    "radii_m": "list of radii",
    "points_m": "outline",
    "holes_m": "list of holes",
    "circles_m": "list of round obstacles",
    "fixes": "list of fixes",
    "points_px": "outline",
    "holes_px": "list of holes",
    "known": "list of known distances",
    "outline_m": "outline",
    "pattern": "pattern",
    "method": "method",
    "product": "product",
    "history": "list of past passes",
    "out": "list of stretches that get no more",
    "before_measured": "way what was there before was measured",
    "measured": "way the rest was measured",
    "granules": "granule size",
    "entries": "list of entries",
    "ceilings": "ceilings",
    "products": "list of products",
    "by": "who did it",
    "today": "day asked about",
    "now": "moment asked about",
    "water_in": "watering after",
    "last_mow": "last mow",
    "occurred_at": "moment it was done",
    "date": "date",
    "id": "id",
    "zone": "zone",
    "zone_id": "zone",
    "zone_ids": "list of zones",
    "claims": "list of jobs taken",
    "claim_id": "job taken",
    "yard": "list of all zones",
    "job": "job",
    "day": "day",
    "product_id": "product",
    "sort": "sort of product",
    "void": "mark of being struck out",
    "bad": "mark of a bad pass",
    "ran_out": "mark of running out",
    "nothing_came": "mark that nothing came",
    "damp": "mark of damp product",
    "days": "list of days",
    "turf": "season of the grass",
    "southern": "mark of the southern hemisphere",
}


def words_of(name: str) -> str:
    """Plain words for an argument's path such as history[2].used_kg.

    Args:
        name: path of the argument as an error names it [text]
    Returns:
        words: what a person would call it [text]
    """
    last = name.split(".")[-1].split("[")[0]
    if last in GLOSSARY:
        return GLOSSARY[last][0]
    return WORDS.get(last, last.replace("_", " "))
