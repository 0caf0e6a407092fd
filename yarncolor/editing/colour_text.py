"""A lot's colour as it is typed: words, a carded blend, a later bath, numbers; and how to."""

import re
from typing import Any

from yarncolor.cautions import POWDERS, SHEETS
from yarncolor.colour.dyes import GUESS
from yarncolor.colour.words import likely_words, words_of_colour
from yarncolor.editing.option_text import format_number, parse_number, parse_share
from yarncolor.plan import Lot

_ORDINALS = {
    1: "first", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh",
    8: "eighth", 9: "ninth", 10: "tenth",
}  # fmt: skip
_TAKEN = 0.7
"""The share of its dye that a bath takes where that is not said; common practice, no source."""

_OUT_OF = "out of its grams"
"""How it is said that a bath is dyed from the undyed lot's own fibre."""

_WHICH = rf"{'|'.join(_ORDINALS.values())}|\d+(?:\.|st|nd|rd|th)"
_BATH = re.compile(
    rf"(?:bath (?P<number>\S+)|(?P<which>{_WHICH}) bath)"
    r" of (?P<of>.+) on (?P<undyed>.+?)"
    rf"(?:, (?P<taken>[^\s%]+)(?P<per_cent>\s*(?:%|per cent))? taken)?(?P<out_of>, {_OUT_OF})?",
    re.DOTALL | re.IGNORECASE,
)
_PART = re.compile(r"([\d.,]+)\s+(.+)", re.DOTALL)
_LONGEST_IN_A_HINT = 20
_BESIDE = " beside "
"""What stands between lots that are held side by side and drafted together."""

_PARTING = (" + ", _BESIDE, " on ", ", ")


def colour_text(lot: Lot) -> str:
    """Return a lot's colour as it would be typed.

    It is in the words that were given, or in such as mean just that colour, else ``#rrggbb``,
    ``L a b`` of CIELAB, a blend as ``2 Kelp + 1 Foam``, lots drafted together as ``2 Kelp beside 1
    Foam`` or a later bath as ``second bath of Kelp on Foam``.
    """
    if lot.colour is not None:
        return words_of_colour(lot.colour) or lot.colour
    if lot.lab is not None:
        return " ".join(map(format_number, lot.lab))
    if lot.blend is not None:
        return _blend_text(dict(lot.blend))
    if lot.drafted is not None:
        return _blend_text(dict(lot.drafted), _BESIDE)
    return _bath_text(vars(lot.bath))


def colour_keys(text: str, named: dict[str, str]) -> dict[str, Any]:
    """Return the keys of a colour as typed; what cannot be read is left to the plan to judge.

    Parameters
    ----------
    text : str
        What was typed.
    named : dict of str to str
        New names of lots by their old ones.
    """
    text = text.strip()
    numbers = [parse_number(part) for part in re.split(r"[;\s]+", text.strip("[] ")) if part]
    if len(numbers) == 3 and not any(isinstance(number, str) for number in numbers):
        return {"lab": numbers}
    bath = _BATH.fullmatch(text)
    if bath is not None:
        return {"bath": _bath_keys(bath, named)}
    for sign, way in ((_BESIDE, "drafted"), (" + ", "blend")):
        matches = [_PART.fullmatch(part.strip()) for part in text.split(sign)]
        parts = [match for match in matches if match is not None]
        if len(parts) == len(matches) and (way == "blend" or len(parts) > 1):
            return {way: {named.get(part[2], part[2]): parse_number(part[1]) for part in parts}}
    return {"colour": text}


def renamed(text: str, named: dict[str, str]) -> str:
    """Return a colour as typed with lots called by their new names.

    Parameters
    ----------
    text : str
        Words, hex, CIELAB, a blend or a bath, as typed.
    named : dict of str to str
        New names by the old ones.
    """
    keys = colour_keys(text, named)
    if keys == colour_keys(text, {}):
        return text
    if "drafted" in keys:
        return _blend_text(keys["drafted"], _BESIDE)
    return _blend_text(keys["blend"]) if "blend" in keys else _bath_text(keys["bath"])


def colour_hint(lots: tuple[Lot, ...], srgb: tuple[str, ...]) -> list[tuple[str, str]]:
    """Return examples of a colour as it is typed, each with what it means, from a plan's own lots.

    Parameters
    ----------
    lots : tuple of Lot
        Of the plan.
    srgb : tuple of str
        CSS hex colours to show them by; the paler of two lots is dyed in the other's bath.
    """
    words = [
        (
            "dark brick red",
            "a colour by its name, and any words that change it: very, pale, dull, reddish",
        ),
        ("madder, pale", f"as that dye commonly comes out; from memory, no source: {GUESS}"),
    ]
    numbers = [
        ("52.5 -8 14", "L, a and b of CIELAB, where you measured them"),
        (srgb[0], "red, green and blue: the picker beside the field gives it"),
    ]
    return [*words, *_hint_of_recipes(lots, srgb), *numbers]


def colour_remedy(text: str) -> str:
    """Return what would be right in the place of words that mean no colour."""
    meant = likely_words(text)
    code = "; a code is # and six digits, 0 to 9 and a to f" if "#" in text else ""
    asked = f"; did you mean “{meant}”?" if meant else ""
    return (
        f"give a colour in words, as “dark brick red” or “madder, pale”, or pick one{asked}{code}"
    )


def _hint_of_recipes(lots: tuple[Lot, ...], srgb: tuple[str, ...]) -> list[tuple[str, str]]:
    brief = [at for at, lot in enumerate(lots) if _is_brief(lot.name)][:2]
    if len(brief) < 2:
        when = "" if len(lots) > 1 else "with a second lot here, "
        return [("", f"{when}lots carded together: parts and names, with + between")]
    one, other = (lots[at].name for at in brief)
    dark, pale = (lots[at].name for at in sorted(brief, key=lambda at: _luma(srgb[at])))
    bath = {"number": 2, "of": dark, "undyed": pale, "exhaustion": 0.7}
    return [
        (_blend_text({one: 2, other: 1}), "carded together, two parts to one"),
        (
            _bath_text(bath),
            f"fibre like {pale}, dyed in what is left in the pot of {dark}; each bath takes 70 % "
            "of the dye, which is common practice, no source",
        ),
        (
            _bath_text({**bath, "exhaustion": 0.6, "mass_from": "undyed"}),
            f"each bath takes 60 %, and the fibre is part of {pale}, whose grams are counted once",
        ),
        (
            _blend_text({one: 2, other: 1}, _BESIDE),
            "held side by side and drafted together: both colours show in the single",
        ),
        ("", f"{POWDERS} {SHEETS}"),
    ]


def _is_brief(name: str) -> bool:
    """Return whether a name is short, and has nothing in it that would part it in two."""
    return len(name) <= _LONGEST_IN_A_HINT and not any(sign in f"{name} " for sign in _PARTING)


def _luma(srgb: str) -> float:
    red, green, blue = (int(srgb[at : at + 2], 16) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _blend_text(parts: dict[str, Any], sign: str = " + ") -> str:
    return sign.join(f"{_said(part)} {name}" for name, part in parts.items())


def _bath_text(bath: dict[str, Any]) -> str:
    number, taken = bath["number"], bath["exhaustion"]
    which = _ORDINALS.get(number, f"{_said(number)}th")
    told = [f"{which} bath of {bath['of']} on {bath['undyed']}"]
    if taken != _TAKEN:
        share = taken if isinstance(taken, str) else f"{format_number(taken * 100)} %"
        told.append(f"{share} taken")
    told += [_OUT_OF] * (bath.get("mass_from") == "undyed")
    return ", ".join(told)


def _bath_keys(bath: re.Match[str], named: dict[str, str]) -> dict[str, Any]:
    """Return the keys of a bath as typed; where its share of the dye is not said, the usual."""
    said = bath["which"] or bath["number"]
    numbers = {word: number for number, word in _ORDINALS.items()}
    number = numbers.get(said.lower(), parse_number(re.sub(r"(?<=\d)(\.|st|nd|rd|th)$", "", said)))
    taken = bath["taken"]
    if taken is not None:
        taken = parse_share(taken) if bath["per_cent"] else parse_number(taken)
    return {
        "number": number,
        "of": named.get(bath["of"], bath["of"]),
        "undyed": named.get(bath["undyed"], bath["undyed"]),
        "exhaustion": _TAKEN if taken is None else taken,
    } | ({"mass_from": "undyed"} if bath["out_of"] else {})


def _said(number: Any) -> str:
    """Return a number as it would be typed; what was typed and is none, as it is."""
    return number if isinstance(number, str) else format_number(number)
