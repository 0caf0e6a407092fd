"""Common dyed colours of wool by dyestuff and shade: a start until the fibre is photographed.

All from memory, by eye; common practice, no source. Fibre, water, mordant and the plant's year
change each of them, so every one is a guess.
"""

from dataclasses import dataclass

GUESS = "a guess, photograph it"


@dataclass(frozen=True)
class Dyestuff:
    """What wool is dyed with, and what colours that commonly gives.

    Parameters
    ----------
    name : str
        The dyestuff.
    how : str
        The mordant, or what else is usual, in words.
    shades : dict of str to str
        CSS hex colours by shade; the second is what the name alone means.
    """

    name: str
    how: str
    shades: dict[str, str]


def _three(pale: str, middle: str, dark: str) -> dict[str, str]:
    return {"pale": pale, "middle": middle, "dark": dark}


DYESTUFFS: tuple[Dyestuff, ...] = (
    Dyestuff("madder", "on alum", _three("#e0a48c", "#b5503a", "#8a2f24")),
    Dyestuff("madder and iron", "on alum", _three("#a88078", "#75463f", "#4b2b2a")),
    Dyestuff("cochineal", "on alum", _three("#e3a8bb", "#b0345b", "#771638")),
    Dyestuff("lac", "on alum", _three("#d59aa4", "#a0384b", "#681c2d")),
    Dyestuff("weld", "on alum", _three("#eee29a", "#d9c140", "#b3962d")),
    Dyestuff("tansy", "on alum", _three("#e6dca2", "#c6b150", "#8a7d3a")),
    Dyestuff("onion skins", "on alum", _three("#e3bb75", "#c68132", "#8c4e1f")),
    Dyestuff("avocado stones", "without a mordant", _three("#e9ccbe", "#cc9988", "#a46f5f")),
    Dyestuff("cutch", "without a mordant", _three("#c7a282", "#93613d", "#5c3a25")),
    Dyestuff("walnut hulls", "without a mordant", _three("#b4997b", "#775337", "#432f20")),
    Dyestuff("oak galls and iron", "grey to black", _three("#8b8680", "#595652", "#32302f")),
    Dyestuff("logwood", "on alum", _three("#a393b2", "#5e4675", "#33273e")),
    Dyestuff("indigo", "in the vat", _three("#a8bfd0", "#4c739e", "#203456")),
    Dyestuff("weld over indigo", "green", _three("#b4c38b", "#6e8d47", "#355230")),
    Dyestuff("madder over indigo", "purple", _three("#a492a5", "#6f5570", "#453247")),
    Dyestuff("undyed wool", "as it grew", {"grey": "#8f8b86", "white": "#eee7d7",
             "fawn": "#b79f82", "brown": "#65483a", "black": "#2f2926"}),
)  # fmt: skip


def dyed_colours() -> list[tuple[str, str]]:
    """Return how each colour may be said, with its CSS hex; ``madder, pale`` last."""
    return [
        (words, colour)
        for way in range(3)
        for dye in DYESTUFFS
        for words, colour in _said(dye)[way]
    ]


def dyestuff_of(text: str) -> Dyestuff | None:
    """Return the dyestuff by whose name a colour was said; None for another colour."""
    told = _plain(text)
    ways = ((dye, words) for dye in DYESTUFFS for way in _said(dye) for words, _ in way)
    return next((dye for dye, words in ways if _plain(words) == told), None)


def guess_words(text: str) -> str:
    """Return where a colour comes from that was said by a dyestuff; nothing for another colour."""
    dye = dyestuff_of(text)
    return f"{GUESS}: {dye.name} {dye.how}, from memory" if dye else ""


def is_a_guess(source: str) -> bool:
    """Return whether the source of a lot says that its colour was guessed by its dyestuff."""
    return source.startswith(GUESS)


def _said(dye: Dyestuff) -> tuple[list[tuple[str, str]], ...]:
    """Return the ways to say a dyestuff's colours: shade first, alone, and in full."""
    shades = dye.shades.items()
    return (
        [(f"{shade} {dye.name}", colour) for shade, colour in shades],
        [(dye.name, list(dye.shades.values())[1])],
        [(f"{dye.name}, {shade}", colour) for shade, colour in shades],
    )


def _plain(text: str) -> str:
    return " ".join(text.lower().replace(",", " ").split())
