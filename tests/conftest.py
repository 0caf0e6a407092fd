"""Hypothesis: the same examples on every machine, and no clock; many more of them when thorough."""

from hypothesis import HealthCheck, settings

_ALWAYS = {
    "deadline": None,
    "derandomize": True,
    "print_blob": False,
    "suppress_health_check": [HealthCheck.too_slow],
}
settings.register_profile("bench", max_examples=15, **_ALWAYS)
settings.register_profile("thorough", max_examples=60, **_ALWAYS)
settings.load_profile("bench")
