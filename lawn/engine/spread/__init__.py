"""A spreading job from its load to its entry in the log: every sum of it."""

from lawn.engine.core.glossary import add

add(
    {
        "target_kg": ("product the target takes", "kg", 0.0, 5000.0),
        "there_kg": ("product there was when this setting began", "kg", 0.0, 5000.0),
        "there_sd_kg": ("likely error of what there was when this setting began", "kg", 0.0, 20000.0),
        "base_kg": ("product the expected level counts from", "kg", 0.0, 5000.0),
        "expected_kg": ("product that should be there now", "kg", 0.0, 20000.0),
        "ground_m2": ("ground the pass has to cover", "m2", 0.0, 6000000.0),
    }
)
