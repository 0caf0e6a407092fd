"""The scheme of a plan file: how the lots are laid out over the plies."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Annotated

from yarncolor.plan.key import (
    DIVISION,
    DIVISIONS,
    FLAG,
    LOT,
    LOTS,
    NUMBER,
    PART,
    PARTS,
    PLIES,
    TABLES,
    WHOLE,
    WORD,
    Key,
)
from yarncolor.plan.limits import (
    LEAST_PART,
    MOST_COPIES,
    MOST_PARTS,
    MOST_PLACES,
    MOST_PLIES,
    MOST_PORTIONS,
    MOST_REPEATS,
    MOST_SEED,
)
from yarncolor.plan.lots import NAME_RIGHT
from yarncolor.plan.own_ply import OF_LOT, ON_PLY, FreePortion, OwnPly
from yarncolor.plan.stripe import Stripe
from yarncolor.said import EACH_PLY, LIST_OF_PLIES, PORTIONS, STRIPES

SCHEME_NAMES = (
    *("matched", "staggered", "fractal", "flipped", "gradient", "stepped", "mirrored"),
    *("solid", "chain", "shuffled", "free", "mixed", "fade", "stripes"),
)
REVERSIBLE = ("matched", "staggered", "fractal")
STRANDS_OF_A_CHAIN = 3
WITHOUT_PLIES = ("chain", "free", "mixed")
"""Schemes of which plies are not chosen: a single's three strands, or as many as are laid out."""

WITHOUT_SEQUENCE = ("free", "mixed", "stripes")
"""Schemes that say themselves what lies on each ply, so that no sequence stands for all."""

OWN_SEQUENCE = (*WITHOUT_SEQUENCE, "fade")
"""Schemes to which the keys of the sequence say nothing: they have none, or keys of their own."""

CLOSINGS = (
    ("keep", "keep both pieces"),
    ("tail", "close once, at the end"),
    ("share", "share the lot out"),
    ("halve", "half pieces at both ends"),
    ("drop", "leave the last place out"),
    ("swap", "swap the last two pieces"),
)
_PLIES_RIGHT = f"{{plies}}, each a whole number from 1 to {MOST_PLIES}"
_DIVISION = Key(
    DIVISION,
    "How often a ply runs through the sequence.",
    f"for each ply a whole number of repeats from 1 to {MOST_REPEATS}, or a list of at most "
    f"as many sizes, each from {LEAST_PART} to {MOST_PARTS:,}",
)
_PART = Key(
    PART,
    "A place's parts of its lot.",
    f"a number of parts, 0 or from {LEAST_PART} to {MOST_PARTS:,}",
)


@dataclass(frozen=True)
class Scheme:
    """Which scheme lays the lots out over the plies, and its options."""

    name: Annotated[
        str | None,
        Key(
            WORD,
            "The scheme: how each ply runs through the lots.",
            "one of {}",
            choices=tuple((name, name) for name in SCHEME_NAMES),
            default="matched",
            words="scheme",
        ),
    ] = None
    plies: Annotated[
        int | None,
        Key(
            WHOLE,
            "Strands of the yarn.",
            "a whole number of plies from {}",
            1,
            MOST_PLIES,
            default=3,
            otherwise="as many as divisions has entries; of a free scheme the highest ply named; 3",
            words="plies",
        ),
    ] = None
    divisions: Annotated[
        tuple[int | tuple[float, ...], ...] | None,
        Key(
            DIVISIONS,
            "How often each ply runs through the sequence; a list in place of a number gives "
            "the repeats' relative sizes.",
            f"1 to {MOST_PLIES} entries, one for each ply: a whole number of repeats from 1 to "
            f"{MOST_REPEATS}, or a list of the repeats' sizes",
            items=_DIVISION,
            least=1,
            most=MOST_PLIES,
            otherwise="[1, 4] for two plies, else doubling from 1",
            words="times through, for each ply",
            schemes=("fractal",),
        ),
    ] = None
    reversed_plies: Annotated[
        tuple[int, ...],
        Key(
            PLIES,
            "Plies that are spun in reverse order.",
            _PLIES_RIGHT,
            slots={"plies": LIST_OF_PLIES},
            items=ON_PLY,
            most=MOST_PLIES,
            otherwise="none",
            words="plies spun in reverse",
            schemes=REVERSIBLE,
        ),
    ] = ()
    sequence: Annotated[
        tuple[str, ...] | None,
        Key(
            LOTS,
            "The lots in spinning order; a lot may stand more than once.",
            f"a list of 1 to {MOST_PLACES} names of lots",
            items=OF_LOT,
            least=1,
            most=MOST_PLACES,
            otherwise="the lots as they stand in the file",
            words="order, one lot a line; a lot may stand more than once",
        ),
    ] = None
    parts: Annotated[
        tuple[float, ...] | None,
        Key(
            PARTS,
            "How a lot's mass is shared among its places.",
            "a list of numbers, one for each place of the sequence",
            items=_PART,
            least=1,
            most=MOST_PLACES,
            otherwise="equal parts",
            words="parts of each place, in order",
        ),
    ] = None
    closing: Annotated[
        str | None,
        Key(
            WORD,
            "What is done where the sequence closes on the lot it began with.",
            "one of {}",
            choices=CLOSINGS,
            default="keep",
            words="when the order ends on the lot it began with",
            schemes=("fractal",),
        ),
    ] = None
    copies: Annotated[
        int | None,
        Key(
            WHOLE,
            "How many alike are spun, one after the other, as for two socks: each ply's order so "
            "many times over, every portion divided by it.",
            "a whole number of copies from {}",
            1,
            MOST_COPIES,
            default=1,
            words="how many alike, one after the other",
        ),
    ] = None
    stagger_places: Annotated[
        float | None,
        Key(
            NUMBER,
            "How many places on each ply starts from the one before.",
            "places as a multiple of 0.5, from {}",
            0,
            500,
            unit="places",
            step=0.5,
            default=1.0,
            words="each ply starts so many places on",
            schemes=("staggered",),
        ),
    ] = None
    blend_steps: Annotated[
        int | None,
        Key(
            WHOLE,
            "Carded blends between each two neighbours.",
            "a whole number of blends from {}",
            0,
            20,
            default=0,
            words="carded blends between neighbours",
            schemes=("gradient",),
        ),
    ] = None
    solid_plies: Annotated[
        tuple[int, ...] | None,
        Key(
            PLIES,
            "Plies that are the solid lot alone.",
            _PLIES_RIGHT,
            slots={"plies": LIST_OF_PLIES},
            items=ON_PLY,
            least=1,
            most=MOST_PLIES,
            default=(1,),
            words="plies of the plain lot",
            schemes=("solid",),
        ),
    ] = None
    solid_lot: Annotated[
        str | None,
        Key(
            LOT,
            "The lot of the solid plies.",
            NAME_RIGHT,
            otherwise="the lot with most {grams} to divide",
            words="the plain lot",
            schemes=("solid",),
        ),
    ] = None
    random_seed: Annotated[
        int | None,
        Key(
            WHOLE,
            "The number of the draw: each gives another order, always the same.",
            "a whole number from {}",
            0,
            MOST_SEED,
            default=1,
            words="number of the draw",
            schemes=("shuffled",),
        ),
    ] = None
    pieces: Annotated[
        int | None,
        Key(
            WHOLE,
            "Pieces into which each lot's share of a ply is divided.",
            "a whole number of pieces from {}",
            1,
            64,
            default=4,
            words="pieces of each lot",
            schemes=("shuffled",),
        ),
    ] = None
    loop_m: Annotated[
        float | None,
        Key(
            NUMBER,
            "The longest third of a loop in chain plying.",
            "{few_metres}, {}",
            0.01,
            100,
            unit="m",
            imperial="in",
            default=0.3,
            words="length of a loop, {few_m}",
            schemes=("chain",),
        ),
    ] = None
    portions: Annotated[
        tuple[FreePortion, ...],
        Key(
            TABLES,
            "The portions as you lay them out, in spinning order.",
            f"at most {MOST_PORTIONS:,} portions, each as a {{them}} table",
            slots={"them": PORTIONS},
            most=MOST_PORTIONS,
            otherwise="none",
            words="portions: ply, lot, {grams}, one a line",
            schemes=("free",),
            holds=FreePortion,
        ),
    ] = ()
    ply: Annotated[
        tuple[OwnPly, ...],
        Key(
            TABLES,
            "What each ply holds, one table a ply: its own sequence, parts and times through.",
            f"at most {MOST_PLIES} plies, {{them}}",
            slots={"them": EACH_PLY},
            most=MOST_PLIES,
            otherwise="none",
            words="what each ply holds, one ply a line: lots; parts; times; reversed; start at",
            example="a ply as Kelp, Foam; parts 2, 1; 3 times; reversed; start at 1",
            schemes=("mixed",),
            holds=OwnPly,
        ),
    ] = ()
    from_: Annotated[
        tuple[str, ...] | None,
        Key(
            LOTS,
            "The lots that every ply is spun from first.",
            f"a list of 1 to {MOST_PLACES} names of lots",
            items=OF_LOT,
            least=1,
            most=MOST_PLACES,
            otherwise="none",
            words="spun first: the lots that it fades from, one a line",
            schemes=("fade",),
        ),
    ] = None
    to: Annotated[
        tuple[str, ...] | None,
        Key(
            LOTS,
            "The lots that every ply ends in; no lot stands on both sides.",
            f"a list of 1 to {MOST_PLACES} names of lots",
            items=OF_LOT,
            least=1,
            most=MOST_PLACES,
            otherwise="none",
            words="spun last: the lots that it fades to, one a line",
            schemes=("fade",),
        ),
    ] = None
    times: Annotated[
        int | tuple[int, ...] | None,
        Key(
            WHOLE,
            "How often a ply runs through the lots of each side.",
            "a whole number of repeats from {}",
            1,
            MOST_REPEATS,
            default=1,
            each="ply",
            words="times through each side",
            schemes=("fade",),
        ),
    ] = None
    stripes: Annotated[
        tuple[Stripe, ...],
        Key(
            TABLES,
            "The stripes of the knitted piece, from the cast-on on.",
            f"at most {MOST_PORTIONS:,} stripes, each as a {{them}} table",
            slots={"them": STRIPES},
            most=MOST_PORTIONS,
            otherwise="none",
            words="stripes from the cast-on on: rows, lot, one a line; a lot for each ply with +",
            schemes=("stripes",),
            holds=Stripe,
        ),
    ] = ()
    repeat: Annotated[
        bool | None,
        Key(
            FLAG,
            "Whether the stripes go round until the piece is full.",
            "true or false",
            default=False,
            choices=((True, "round and round until the piece is full"), (False, "once")),
            words="the stripes are knitted",
            schemes=("stripes",),
        ),
    ] = None

    @property
    def sides(self) -> tuple[str, ...]:
        """The lots of a fade, those that it fades from before those that it fades to."""
        return (*(self.from_ or ()), *(self.to or ()))

    def in_order(self, names: Sequence[str], sources: Sequence[int]) -> "Scheme":
        """Return the scheme in another order; parts go with their places.

        Parameters
        ----------
        names : sequence of str
            The lot of each place, as they stand.
        sources : sequence of int
            The place from which each place has what stands there.
        """
        sequence = tuple(names[at] for at in sources)
        if self.name == "fade":
            side = len(self.from_ or ())
            return replace(self, from_=sequence[:side], to=sequence[side:])
        parts = self.parts and tuple(self.parts[at] for at in sources)
        return replace(self, sequence=sequence, parts=parts)
