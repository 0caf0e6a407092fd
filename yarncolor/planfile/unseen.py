"""Characters that nobody can see, as a table pasted from elsewhere leaves them in a name."""

import unicodedata
from collections.abc import Iterator
from typing import Any

_JOINERS = "\u200c\u200d"
"""They hold letters of joined scripts and pictures together: they stay."""
_FILLERS = "\u115f\u1160\u17b4\u17b5\u2800\u3164\uffa0"
"""Letters by their kind, which are drawn as nothing."""


def without_unseen(text: str) -> str:
    """Return a text without marks of format: byte order marks, soft hyphens, widths of zero."""
    return "".join(letter for letter in text if not _is_unseen(letter))


def shows(text: str) -> bool:
    """Return whether anything of a text can be seen."""
    return any(
        letter not in _FILLERS + _JOINERS and unicodedata.category(letter)[0] not in "ZM"
        for letter in text
    )


def unseen_in(data: Any) -> Iterator[str]:
    """Return each text of a plan file, of names and values, that holds such a character."""
    waiting = [data]
    while waiting:
        value = waiting.pop()
        if isinstance(value, dict):
            waiting += [each for pair in reversed(value.items()) for each in reversed(pair)]
        elif isinstance(value, list):
            waiting += reversed(value)
        elif isinstance(value, str) and not value.isascii() and any(map(_is_unseen, value)):
            yield without_unseen(value).strip()


def _is_unseen(letter: str) -> bool:
    return unicodedata.category(letter) == "Cf" and letter not in _JOINERS
