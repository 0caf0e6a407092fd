"""The stash of a plan file: its lots, each with a colour given in one of four ways."""

from dataclasses import dataclass
from functools import partial
from typing import Annotated

from yarncolor.plan.key import (
    BLEND,
    COLOUR,
    LAB,
    LINE,
    LOT,
    NUMBER,
    SHARE,
    TABLE,
    TEXT,
    WHOLE,
    WORD,
    Key,
)
from yarncolor.plan.limits import (
    LEAST_GRAMS,
    LONGEST_NAME,
    LONGEST_NOTE,
    MOST_GRAMS,
    MOST_PARTS,
    ROUNDING,
)

WAYS_TO_A_COLOUR = ("colour", "lab", "blend", "drafted", "bath")
RECIPES = ("blend", "drafted")
"""Ways to a colour that take their grams from other lots, by parts."""
PREPARATIONS = ("rolag", "batt", "top", "roving", "locks")

NAME_RIGHT = f"a name of 1 to {LONGEST_NAME} characters, without control characters"
_TEXT_RIGHT = f"text of at most {LONGEST_NOTE:,} characters, without control characters"

text_key = partial(Key, TEXT, right=_TEXT_RIGHT, most=LONGEST_NOTE)
"""Declares a text of several lines by its meaning."""


@dataclass(frozen=True)
class Bath:
    """A later, paler bath of a dye: of which lot, which bath, and on which undyed fibre."""

    of: Annotated[str, Key(LOT, "The lot of the first bath.", NAME_RIGHT)]
    number: Annotated[
        int, Key(WHOLE, "Which bath it is.", "which bath, a whole number from {}", 2, 20)
    ]
    exhaustion: Annotated[
        float, Key(SHARE, "The share of its dye that a bath gives up.", low=0, high=1, is_open=True)
    ]
    undyed: Annotated[str, Key(LOT, "The lot whose colour the fibre had before.", NAME_RIGHT)]
    mass_from: Annotated[
        str,
        Key(
            WORD,
            "Whether its grams are fibre of its own or come out of the undyed lot's.",
            "own or undyed",
            choices=(("own", "fibre of its own"), ("undyed", "out of the undyed lot's grams")),
            default="own",
        ),
    ] = "own"

    @property
    def takes_from(self) -> str | None:
        """The lot whose grams it is dyed from; None where it is fibre of its own."""
        return self.undyed if self.mass_from == "undyed" else None


@dataclass(frozen=True)
class Lot:
    """One colour of fibre: its name, mass and, in exactly one way, its colour.

    ``colour`` is CSS hex or words, ``lab`` CIELAB D65/2°, ``blend`` parts by mass of other lots
    that are carded together, ``drafted`` the same of lots that are drafted side by side, ``bath``
    a paler bath. ``is_step`` marks a blend that a gradient made,
    ``on_braid`` a colour of the braid: neither stands among the lots of the file.
    """

    name: Annotated[
        str,
        Key(
            LINE,
            "What the lot is called; its own.",
            NAME_RIGHT,
            least=1,
            most=LONGEST_NAME,
            words="name",
        ),
    ]
    mass_g: Annotated[
        float,
        Key(
            NUMBER,
            "What there is of it; or rolags with rolag_g in its place.",
            "{grams}, {}",
            LEAST_GRAMS,
            MOST_GRAMS,
            unit="g",
            words="{grams}",
        ),
    ]
    colour: Annotated[
        str | None,
        Key(
            COLOUR,
            "Its colour in words or as CSS hex, sRGB; or lab, blend, drafted or bath in its place.",
            'a colour in words, as "dark brick red" or "madder, pale"; or its code, # and 3 or 6 '
            "digits from 0 to 9 and a to f; or lab in its place",
            words="colour",
        ),
    ] = None
    lab: Annotated[
        tuple[float, float, float] | None,
        Key(
            LAB,
            "Its colour as [L, a, b] of CIELAB, D65, 2° observer.",
            "[L, a, b] of CIELAB D65: L 0 to 100, a and b -128 to 128",
        ),
    ] = None
    blend: Annotated[
        tuple[tuple[str, float], ...] | None,
        Key(
            BLEND,
            "The lots that it is carded from, which give the grams, with their parts by mass.",
            f"parts by mass, each above 0 and at most {MOST_PARTS:,}, "
            "as {{ Kelp = 2, Foam = 1 }}",
        ),
    ] = None
    drafted: Annotated[
        tuple[tuple[str, float], ...] | None,
        Key(
            BLEND,
            "The lots that are held side by side and drafted together, which give the grams, with "
            "their parts by mass.",
            f"parts by mass of two lots or more, each above 0 and at most {MOST_PARTS:,}, "
            "as {{ Kelp = 2, Foam = 1 }}",
        ),
    ] = None
    bath: Annotated[
        Bath | None,
        Key(
            TABLE,
            "A later, paler bath of another lot's dye.",
            "a table with of, number, exhaustion and undyed",
            holds=Bath,
        ),
    ] = None
    rolags: Annotated[
        float | None,
        Key(
            NUMBER,
            "How many rolags there are, each of rolag_g, in place of mass_g.",
            "how many rolags, {}",
            0.01,
            10_000,
            words="rolags",
            brief="{} rolags",
        ),
    ] = None
    rolag_g: Annotated[
        float | None,
        Key(
            NUMBER,
            "What one rolag weighs; beside mass_g it says how many rolags that makes.",
            "{grams} of one rolag, {}",
            0.001,
            1000,
            unit="g",
            words="{grams} of one rolag",
            brief="{} {g} each",
        ),
    ] = None
    reserve_g: Annotated[
        float,
        Key(
            NUMBER,
            "Kept back for a sample, a top-up, mending.",
            "{grams} kept back, 0 up to the lot's mass",
            0,
            MOST_GRAMS,
            unit="g",
            default=0.0,
            words="kept back, {g}",
        ),
    ] = 0.0
    preparation: Annotated[
        str | None,
        Key(
            WORD,
            "How the fibre lies ready: sets the words for dividing it.",
            choices=tuple((word, word) for word in PREPARATIONS),
            words="prepared as",
        ),
    ] = None
    fibre: Annotated[str, text_key("What fibre it is.", words="fibre")] = ""
    note: Annotated[str, text_key("For the record.", words="note")] = ""
    dye: Annotated[
        str,
        text_key("The dye, for the record.", words="dye", brief="dyed with {}"),
    ] = ""
    mordant: Annotated[
        str,
        text_key("The mordant, for the record.", words="mordant", brief="mordant {}"),
    ] = ""
    bath_number: Annotated[
        str,
        text_key(
            "Which bath it was dyed in, for the record; colours differ from bath to bath.",
            words="bath",
            brief="bath {}",
        ),
    ] = ""
    dyed_on: Annotated[
        str,
        text_key("When it was dyed, for the record.", words="dyed on", brief="dyed on {}"),
    ] = ""
    source: Annotated[
        str,
        text_key(
            "Where the fibre comes from, or its colour.",
            words="where it comes from",
            brief="from {}",
        ),
    ] = ""
    regain: Annotated[
        float | None,
        Key(
            SHARE,
            "Water over dry fibre on the day that its mass was taken.",
            low=0,
            high=0.6,
            of="water beside bone-dry fibre",
            words="how damp when weighed, %",
            brief="{} % water",
        ),
    ] = None
    colour_unsure: Annotated[
        float | None,
        Key(
            NUMBER,
            "By how much its colour may be out; a photograph says so.",
            "how far its colour may be out, {}",
            0,
            50,
            unit="CIEDE2000",
            words="how far the colour may be out, 0 to 50",
            brief="colour ± {}",
        ),
    ] = None
    is_step: bool = False
    on_braid: bool = False

    def __post_init__(self) -> None:
        most_g = self.mass_g * (1 + ROUNDING)
        if not 0 <= self.reserve_g <= most_g < float("inf"):
            raise ValueError(f"{self.name}: a reserve lies between 0 and the mass, {self.mass_g} g")
        if sum(getattr(self, way) is not None for way in WAYS_TO_A_COLOUR) != 1:
            raise ValueError(f"{self.name}: give one of {', '.join(WAYS_TO_A_COLOUR)}")

    @property
    def made_from(self) -> tuple[str, ...]:
        """Names of the lots that this one's colour is made from."""
        if self.recipe:
            return tuple(name for name, _ in self.recipe)
        return (self.bath.of, self.bath.undyed) if self.bath is not None else ()

    @property
    def recipe(self) -> tuple[tuple[str, float], ...]:
        """The lots that it takes its grams from, with their parts; empty for fibre of its own."""
        return self.blend or self.drafted or ()

    @property
    def made_of(self) -> str | None:
        """How the lot is made: step, blend, drafted or bath; None for one of its own colour."""
        if self.blend is not None:
            return "step" if self.is_step else "blend"
        if self.drafted is not None:
            return "drafted"
        return "bath" if self.bath is not None else None
