"""What a text says in grams and metres, where it should say ounces and yards."""

import re

METRIC = re.compile(
    r"(?<![\w#.-])\d[\d.,]*[\s\u00a0]?(?:g|m|cm|mm|kg)(?![\w/³-])"
    r"|\b(?:[Cc]enti|[Mm]illi)?[Mm]et(?:re|er)s?\b|\b[Gg]rams?\b|\b(?:g|m|cm|mm|m/g)\b(?![³/])",
)
"""What nothing in ounces and yards says; a density in g/cm³ has no other unit."""


def metric_words(text: str) -> list[str]:
    """Return every metric unit of a text, with what stands around it."""
    return [text[max(0, at.start() - 30) : at.end() + 20] for at in METRIC.finditer(text)]


def texts_in(told) -> list[str]:
    """Return every text in a message, however deep."""
    if isinstance(told, str):
        return [told]
    values = told.values() if isinstance(told, dict) else told
    return [text for one in values for text in texts_in(one)] if _holds(told) else []


def _holds(told) -> bool:
    return isinstance(told, dict | list | tuple)
