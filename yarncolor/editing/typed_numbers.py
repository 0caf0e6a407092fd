"""Numbers as they are typed: 27.5 and 27,5, 1,200 and 1 200, ½ and 1 1/2.

A comma, an apostrophe or a thin blank before just three digits parts thousands, as the screens
themselves write them, but not behind a 0; any other comma is a decimal point.
"""

import re
from fractions import Fraction
from unicodedata import numeric

_PARTS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_OF_THOUSANDS = (
    r"[1-9]\d{0,2}(?:(?:,\d{3})+|(?:['’\u00a0\u202f]\d{3})+)(?!\d)|[1-9]\d{0,2}(?:\.\d{3})+(?=,\d)"
)
_DIVIDED = r"(?:\d+(?:\s+|-))?\d+\s?[/⁄]\s?\d+(?![.,]?\d)"
UNSIGNED = rf"(?:(?:\d+\s?)?[{_PARTS}]|{_DIVIDED}|(?:{_OF_THOUSANDS}|\d+)(?:[.,]\d+)?|\.\d+)"
NUMBER = rf"[+\-−]?{UNSIGNED}"
"""A number in a text, without a sign and with; neither holds a group of its own."""

_LONGEST = 60
_IN_WHOLE = re.compile(NUMBER)
_THOUSANDS = re.compile(rf"(?:{_OF_THOUSANDS})")
_BLANKS = re.compile(r"(?<![\d.,])([1-9]\d{0,2})((?: \d{3})+)(?!\d)")
_SLASH = re.compile(r"\s?[/⁄]\s?")


def number_in(text: str, *, thousands: bool = True) -> Fraction | None:
    """Return the number that a text is, exactly; None where it is none.

    Parameters
    ----------
    text : str
        As typed.
    thousands : bool
        Whether ``1,200`` is a thousand and more, or one and a fifth.
    """
    text = text.strip()
    if len(text) > _LONGEST or not _IN_WHOLE.fullmatch(text):
        return None
    sign, digits = (-1 if text[0] in "-−" else 1), text.lstrip("+-−")
    if digits[-1] in _PARTS:
        whole = digits[:-1].strip()
        return sign * (int(whole or 0) + Fraction(numeric(digits[-1])).limit_denominator(10))
    if _SLASH.search(digits):
        return _divided(sign, digits)
    return sign * Fraction(_plain_digits(digits, thousands))


def has_thousands(text: str) -> bool:
    """Return whether a text is a number whose thousands are parted by commas."""
    return bool(_THOUSANDS.match(text.strip().lstrip("+-−")))


def is_decimal(text: str) -> bool:
    """Return whether a number is typed in digits, and not as a fraction."""
    return not _SLASH.search(text)


def without_blanks(text: str) -> str:
    """Return a text whose thousands are parted by blanks, as in ``1 200 m``, without those."""
    return _BLANKS.sub(lambda found: found[1] + found[2].replace(" ", ""), text)


def _divided(sign: int, digits: str) -> Fraction | None:
    *whole, above, below = re.split(r"\s+|-", _SLASH.sub(" ", digits))
    if not int(below):
        return None
    return sign * (int(whole[0] if whole else 0) + Fraction(int(above), int(below)))


def _plain_digits(digits: str, thousands: bool) -> str:
    """Return digits with a decimal point, and nothing that parts thousands."""
    may_be_decimal = re.fullmatch(r"\d+,\d+", digits)
    found = None if may_be_decimal and not thousands else _THOUSANDS.match(digits)
    whole, rest = (digits[: found.end()], digits[found.end() :]) if found else ("", digits)
    return re.sub(r"\D", "", whole) + rest.replace(",", ".")
