"""The dial: what past passes teach about it and which setting to use."""

from lawn.engine.core.glossary import add

add(
    {
        "left_sd_kg": ("likely error of what is left", "kg", 0.0, 20000.0),
        "passes_to_go": ("passes still to walk", "passes", 1, 20),
        "missing_kg_m2": ("product the ground still lacks", "kg/m2", 0.0, 50.0),
        "before_left_kg": ("product read to be there before", "kg", 0.0, 20000.0),
        "now_kg": ("product there is now", "kg", 0.0, 20000.0),
        "now_sd_kg": ("likely error of what there is now", "kg", 0.0, 20000.0),
        "area_done_m2": ("ground covered so far", "m2", 0.5, 100000.0),
        "area_to_go_m2": ("ground still to cover", "m2", 0.5, 100000.0),
        "dial_now": ("setting walked so far", "dial", -1000.0, 1000.0),
        "start_kg": ("product there was at the start", "kg", 0.0, 5000.0),
        "start_sd_kg": ("likely error of what there was at the start", "kg", 0.0, 20000.0),
        "added_kg": ("product poured in on the way", "kg", 0.0, 5000.0),
        "in_bag_kg": ("product left in the bag", "kg", 0.0, 5000.0),
        "hopper_kg": ("product left in the hopper", "kg", 0.0, 5000.0),
        "hopper_sd_kg": ("likely error of what is in the hopper", "kg", 0.0, 5000.0),
        "handful_kg": ("weight of one handful", "kg", 0.001, 5.0),
        "aim_kg": ("product the pass should put down", "kg", 0.0, 5000.0),
    }
)
