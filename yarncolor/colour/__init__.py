"""What colour a lot has and how far two are apart: from numbers, mixtures, baths, a photograph."""

__all__: list[str] = []
