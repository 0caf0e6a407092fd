"""Words for units in what is said of a key: in grams and metres, or in ounces and yards."""

import re

METRIC, IMPERIAL = "metric", "imperial"
_BY_SYSTEM = {METRIC: 0, IMPERIAL: 1}

UNIT_WORDS: dict[str, tuple[str, str]] = {
    "g": ("g", "oz"),
    "grams": ("grams", "ounces"),
    "a_gram": ("a gram", "an ounce"),
    "m": ("m", "yd"),
    "metres": ("metres", "yards"),
    "a_metre": ("a metre", "a yard"),
    "minutes": ("minutes", "minutes for an ounce"),
    "few_m": ("m", "in"),
    "few_metres": ("metres", "inches"),
    "cm": ("cm", "in"),
    "centimetres": ("centimetres", "inches"),
    "ten_cm": ("10 cm", "4 inches"),
    "m_in_a_gram": ("m in a gram", "yd/lb"),
    "m_in_100_g": ("m in 100 g", "yd/lb"),
    "gram_of_yarn": ("a gram", "a pound"),
    "hundred_g": ("100 g", "a pound"),
    "tex": ("tex (g in 1,000 m)", "tex"),
    "tex_is": ("tex, which is grams in 1,000 m", "tex"),
    "tex_factor": ("turns a metre times the root of the tex", "the tex twist factor"),
    "a_sample": ("20 m 2.6 g", "22 yd 0.09 oz"),
    "a_short_sample": ("2 m 0.21 g", "2 yd 0.007 oz"),
    "a_skein": ("14, 220", "14, 1100"),
    "a_swatch": ("20, 28, 4.5 g", "20, 28, 0.16 oz"),
    "some_single": ("20 m", "20 yd"),
    "some_yarn": ("10 m", "10 yd"),
    "little_fibre": ("ten grams", "half an ounce"),
    "small_batt": ("5 g", "a quarter of an ounce"),
}
"""What may stand in braces in the words of a key or of advice to a hand, in each system."""

_SLOT = re.compile(r"\{(\w+)\}")


def unit_word(name: str, system: str) -> str:
    """Return a word of `UNIT_WORDS`.

    Parameters
    ----------
    name : str
        As it stands in braces.
    system : str
        ``metric`` or ``imperial``.
    """
    return UNIT_WORDS[name][_BY_SYSTEM[system]]


def in_words(text: str, system: str) -> str:
    """Return a text with words for its units; other braces stay.

    Parameters
    ----------
    text : str
        With names of `UNIT_WORDS` in braces.
    system : str
        ``metric`` or ``imperial``.
    """

    def word(found: re.Match[str]) -> str:
        return unit_word(found[1], system) if found[1] in UNIT_WORDS else found[0]

    return _SLOT.sub(word, text)


def unit_slots(text: str) -> list[str]:
    """Return the names of units that stand in braces in a text."""
    return [name for name in _SLOT.findall(text) if name in UNIT_WORDS]
