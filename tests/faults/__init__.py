"""Which test proves which promise, rule and fault of the sync design; `manage.py faults` prints it."""
