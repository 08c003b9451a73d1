"""The bench: sizes (asserted in `test_sizes.py`) and times as ratios, which `manage.py bench` only prints."""
