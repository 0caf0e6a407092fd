"""The one hypothesis profile: the same examples on every machine, and no clock."""

from hypothesis import HealthCheck, settings

settings.register_profile(
    "bench",
    max_examples=40,
    deadline=None,
    derandomize=True,
    print_blob=False,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("bench")
