"""How many examples a law is tried on: a multiple of what the run asks for."""

from hypothesis import settings


def times(many: float) -> settings:
    """Return settings for as many times the usual number of examples; at least one."""
    return settings(max_examples=max(1, round(many * settings.default.max_examples)))
