"""How Hypothesis runs here: it judges values, never time, since a loaded machine is slow without being wrong."""

from hypothesis import HealthCheck, settings

settings.register_profile("house", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("house")
