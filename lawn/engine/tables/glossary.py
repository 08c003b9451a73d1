"""One name, one meaning, one unit, one range: every number that enters the engine.

Each row is name: (words, unit, lowest allowed, highest allowed). The ranges are those of
fixtures/kinds.json where a field is stored; they keep slips of the finger out, they are not advice.
"""

GLOSSARY = {
    # label
    "net_kg": ("net weight", "kg", 0.01, 2000.0),
    "coverage_m2": ("coverage", "m2", 0.5, 100000.0),
    "area_m2": ("area", "m2", 0.5, 100000.0),
    "rate_kg_m2": ("product rate", "kg/m2", 0.000001, 50.0),
    "target_kg_m2": ("aim", "kg/m2", 0.000001, 50.0),
    "n_kg_m2": ("nitrogen rate", "kg/m2", 0.0, 5.0),
    "n_percent": ("nitrogen on the label", "%", 0.0, 100.0),
    "p2o5_percent": ("phosphate on the label", "%", 0.0, 100.0),
    "k2o_percent": ("potash on the label", "%", 0.0, 100.0),
    "slow_n_share": ("slow-release share of the nitrogen", "share", 0.0, 1.0),
    "slow_share": ("slow-release share of the nitrogen", "share", 0.0, 1.0),
    "price": ("price of one bag", "money", 0.0, 100000.0),
    "bags": ("bags", "bags", 0.001, 1000.0),
    "tolerance_share": ("tolerance", "share", 0.0, 0.5),
    # area
    "length_m": ("length", "m", 0.01, 5000.0),
    "width_m": ("width", "m", 0.01, 5000.0),
    "base_m": ("base", "m", 0.01, 5000.0),
    "height_m": ("height", "m", 0.01, 5000.0),
    "a_m": ("side a", "m", 0.01, 5000.0),
    "b_m": ("side b", "m", 0.01, 5000.0),
    "c_m": ("side c", "m", 0.01, 5000.0),
    "radius_m": ("radius", "m", 0.01, 5000.0),
    "side_a_m": ("parallel side a", "m", 0.01, 5000.0),
    "side_b_m": ("parallel side b", "m", 0.01, 5000.0),
    "length_error_share": ("likely error of one length", "share", 0.0, 0.3),
    "spacing_m": ("spacing of the offsets", "m", 0.01, 1000.0),
    "offset_m": ("offset", "m", 0.0, 5000.0),
    "coordinate_m": ("coordinate", "m", -50000.0, 50000.0),
    "x_m": ("place across", "m", -50000.0, 50000.0),
    "y_m": ("place upwards", "m", -50000.0, 50000.0),
    "corner_error_m": ("likely error of a corner", "m", 0.0, 100.0),
    # walked with the phone, or traced on a picture
    "lat": ("latitude", "deg", -90.0, 90.0),
    "lon": ("longitude", "deg", -180.0, 180.0),
    "accuracy_m": ("accuracy of the fix", "m", 0.0, 1.0e7),
    "worst_accuracy_m": ("worst accuracy taken", "m", 0.5, 100.0),
    "x1": ("first end of the known distance, across", "px", -50000.0, 50000.0),
    "y1": ("first end of the known distance, down", "px", -50000.0, 50000.0),
    "x2": ("second end of the known distance, across", "px", -50000.0, 50000.0),
    "y2": ("second end of the known distance, down", "px", -50000.0, 50000.0),
    "distance_m": ("known distance", "m", 0.1, 5000.0),
    "distance_error_share": ("likely error of a known distance", "share", 0.0, 0.3),
    "pointing_px": ("likely error of pointing at a corner", "px", 0.0, 100.0),
    "north_px_deg": ("direction of north on the picture", "deg", -360.0, 360.0),
    # hopper
    "top_length_m": ("hopper length at the top", "m", 0.05, 2.0),
    "top_width_m": ("hopper width at the top", "m", 0.05, 2.0),
    "bottom_length_m": ("hopper length at the bottom", "m", 0.01, 2.0),
    "bottom_width_m": ("hopper width at the bottom", "m", 0.01, 2.0),
    "level_share": ("level in the hopper", "share", 0.0, 1.0),
    "bulk_density_kg_m3": ("bulk density", "kg/m3", 100.0, 2500.0),
    "mass_kg": ("mass in the hopper", "kg", 0.0, 5000.0),
    "sample_kg": ("weight of the measured product", "kg", 0.005, 100.0),
    "sample_m3": ("volume of the measured product", "m3", 0.00005, 0.1),
    # spreading
    "lowest": ("lowest number on the dial", "dial", -1000.0, 1000.0),
    "highest": ("highest number on the dial", "dial", -1000.0, 1000.0),
    "step": ("one click of the dial", "dial", 0.01, 100.0),
    "dial": ("dial setting", "dial", -1000.0, 1000.0),
    "used_kg": ("product used", "kg", 0.0, 5000.0),
    "left_kg": ("product left", "kg", 0.0, 20000.0),
    "left_sd_kg": ("likely error of what is left", "kg", 0.0, 20000.0),
    "passes": ("passes", "passes", 1, 20),
    "passes_to_go": ("passes still to walk", "passes", 1, 20),
    "missing_kg_m2": ("product the ground still lacks", "kg/m2", 0.0, 50.0),
    "before_left_kg": ("product read to be there before", "kg", 0.0, 20000.0),
    "now_kg": ("product there is now", "kg", 0.0, 20000.0),
    "now_sd_kg": ("likely error of what there is now", "kg", 0.0, 20000.0),
    "area_done_m2": ("ground covered so far", "m2", 0.5, 100000.0),
    "area_to_go_m2": ("ground still to cover", "m2", 0.5, 100000.0),
    "dial_now": ("setting walked so far", "dial", -1000.0, 1000.0),
    "walked": ("passes of the walk", "passes", 1, 400),
    "since": ("first pass to compare with", "place", 0, 400),
    "start_kg": ("product there was at the start", "kg", 0.0, 5000.0),
    "start_sd_kg": ("likely error of what there was at the start", "kg", 0.0, 20000.0),
    "added_kg": ("product poured in on the way", "kg", 0.0, 5000.0),
    "in_bag_kg": ("product left in the bag", "kg", 0.0, 5000.0),
    "hopper_kg": ("product left in the hopper", "kg", 0.0, 5000.0),
    "hopper_sd_kg": ("likely error of what is in the hopper", "kg", 0.0, 5000.0),
    "handfuls": ("handfuls left", "handfuls", 0.0, 100000.0),
    "handful_kg": ("weight of one handful", "kg", 0.001, 5.0),
    "aim_kg": ("product the pass should put down", "kg", 0.0, 5000.0),
    # walking
    "swath_m": ("swath", "m", 0.2, 20.0),
    "speed_m_s": ("walking speed", "m/s", 0.3, 3.0),
    "heading_deg": ("heading of the strips", "deg", 0.0, 360.0),
    "header_strips": ("strips round each edge", "strips", 0, 4),
    "load_kg": ("product in the hopper at the start", "kg", 0.0, 5000.0),
    "strips": ("strips counted in the zone", "strips", 1, 1000),
    "covered_m2": ("ground walked before", "m2", 0.0, 6000000.0),
    "catches_g": ("catch of a tray", "g", 0.0, 10000.0),
    "tray_spacing_m": ("distance from tray to tray", "m", 0.05, 5.0),
    "trays_apart": ("trays from track to track", "trays", 1, 200),
    "cv_limit_share": ("unevenness allowed", "share", 0.01, 1.0),
    # mowing
    "height_mm": ("height of the grass", "mm", 2.0, 2000.0),
    "target_mm": ("height of cut wanted", "mm", 2.0, 200.0),
    "cut_height_mm": ("height of cut", "mm", 5.0, 200.0),
    "interval_days": ("least days between applications", "day", 0.0, 365.0),
    "mow_every_days": ("days between cuts", "day", 1.0, 60.0),
    # feeding
    "n_year_kg_m2": ("nitrogen ceiling for a year", "kg/m2", 0.0, 5.0),
    "n_once_kg_m2": ("nitrogen ceiling for one feeding", "kg/m2", 0.0, 5.0),
    "n_quick_once_kg_m2": ("quick nitrogen ceiling for one feeding", "kg/m2", 0.0, 5.0),
}

# Names that are not numbers, so that an error message can speak of them.
WORDS = {
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
    "before_measured": "way what was there before was measured",
    "measured": "way the rest was measured",
    "granules": "granule size",
    "entries": "list of entries",
    "ceilings": "ceilings",
    "products": "list of products",
    "by": "who did it",
    "today": "day asked about",
    "last_mow": "last mow",
    "occurred_at": "moment it was done",
    "date": "date",
    "id": "id",
    "zone": "zone",
    "zone_id": "zone",
    "zone_ids": "list of zones",
    "product_id": "product",
    "sort": "sort of product",
    "void": "mark of being struck out",
    "bad": "mark of a bad pass",
    "ran_out": "mark of running out",
    "nothing_came": "mark that nothing came",
    "damp": "mark of damp product",
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
