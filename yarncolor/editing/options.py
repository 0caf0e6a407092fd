"""Every option of a plan by table: its words, how it is typed, and when it matters."""

from dataclasses import dataclass
from typing import Any

from yarncolor.defaults import scheme_name
from yarncolor.phrases import CLOSING_WORDS, KIND_WORDS, MODEL_WORDS, WINDING_WORDS, direction
from yarncolor.plan import Plan, to_data
from yarncolor.yarn import balance
from yarncolor.yarn.given import AGREE

NUMBER, NUMBERS, PER_CENT, WORD, WORDS, LOT, LOTS, LINE, LINES, PORTIONS, REPEATS = (
    *("number", "numbers", "per cent", "word", "words", "lot", "lots"),
    *("line", "lines", "portions", "repeats"),
)


@dataclass(frozen=True)
class Option:
    """An option of a plan as a form shows it.

    Parameters
    ----------
    table : str
        Table of the plan file; empty for its head.
    key : str
        Key in that table.
    words : str
        What stands beside the field, with its unit.
    kind : str
        How it is typed: number, numbers (one, or one for each ply), per cent (of a share), word,
        words (one, or one for each ply), lot, lots (one a line), line, lines, portions, repeats.
    choices : tuple of pairs of str
        What is typed and what is said of it, where it is chosen.
    schemes : tuple of str
        Schemes for which it matters; empty for all.
    parts : tuple of str
        Keys of a small table that is typed as its numbers, one after the other.
    heading : str
        What stands over it and its alternatives, or over fields that belong together.
    each : str
        What stands beside the field where every ply has its own instead of one choice for all.
    """

    table: str
    key: str
    words: str
    kind: str = NUMBER
    choices: tuple[tuple[str, str], ...] = ()
    schemes: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    heading: str = ""
    each: str = ""


_REVERSIBLE = ("matched", "staggered", "fractal")
_SENSES = tuple((sense, direction(sense)) for sense in "ZS")
_CLOSINGS = tuple(CLOSING_WORDS.items())
_WINDINGS = tuple((str(times), words) for words, times in WINDING_WORDS.items())
_THICK = f"How thick is the single? Fill in one; two must agree within {AGREE * 100:.0f} %"
_LOOSE = "How loosely does yarn lie on your ruler? Fill in one"
_TWIST = "How much twist have the singles? Fill in one"
_PLY_TWIST = "How much ply twist? Fill in one"
_LOST = "How much length is lost in plying? What you measured counts before a way to reckon it"
_PACE = "How fast do you spin? Minutes, or treadles and turns together"
_PLY_PACE = "How fast do you ply? Treadles and turns together"

OPTIONS: tuple[Option, ...] = (
    Option("", "title", "title", LINE),
    Option("", "purpose", "what it is for", LINES),
    Option("scheme", "divisions", "times through, for each ply", REPEATS, schemes=("fractal",)),
    Option("scheme", "closing", "where the sequence closes", WORD, _CLOSINGS, ("fractal",)),
    Option("scheme", "reversed_plies", "plies spun in reverse", NUMBERS, schemes=_REVERSIBLE),
    Option("scheme", "stagger_places", "each ply starts so many places on", schemes=("staggered",)),
    Option("scheme", "blend_steps", "carded blends between neighbours", schemes=("gradient",)),
    Option("scheme", "solid_plies", "plies of the plain lot", NUMBERS, schemes=("solid",)),
    Option("scheme", "solid_lot", "the plain lot", LOT, schemes=("solid",)),
    Option("scheme", "random_seed", "number of the draw", schemes=("shuffled",)),
    Option("scheme", "pieces", "pieces of each lot", schemes=("shuffled",)),
    Option("scheme", "loop_m", "length of a loop, m", schemes=("chain",)),
    Option("scheme", "sequence", "order, one lot a line; a lot may stand more than once", LOTS),
    Option("scheme", "parts", "parts of each place, in order", NUMBERS),
    Option("scheme", "portions", "portions: ply, lot, grams, one a line", PORTIONS,
           schemes=("free",)),
    Option("spinning", "single_m_per_g", "single, m in a gram", NUMBERS, heading=_THICK),
    Option("spinning", "single_tex", "single, tex (g in 1,000 m)", NUMBERS, heading=_THICK),
    Option("spinning", "single_wpi", "single, wraps to the inch", NUMBERS, heading=_THICK),
    Option("spinning", "sample", "a weighed length of single: m, g", NUMBERS,
           parts=("length_m", "mass_g"), heading=_THICK),
    Option("spinning", "yarn_m_per_100g", "finished yarn, m in 100 g", heading=_THICK),
    Option("spinning", "yarn_wpi", "finished yarn, wraps to the inch", heading=_THICK),
    Option("spinning", "twist_tpi", "turns in an inch", NUMBERS, heading=_TWIST),
    Option("spinning", "twist_tpm", "turns in a metre", NUMBERS, heading=_TWIST),
    Option("spinning", "twist_angle_deg", "angle of the outer fibres, degrees", NUMBERS,
           heading=_TWIST),
    Option("spinning", "twist_factor", "twist factor, turns in a metre × √tex", NUMBERS,
           heading=_TWIST),
    Option("spinning", "wrapped_skein", "a wrapped skein: wraps to the inch, m in 100 g", NUMBERS,
           parts=("wpi", "m_per_100g"), heading=_LOOSE),
    Option("spinning", "relaxed_density_g_per_cm3", "density as wrapped on a ruler, g/cm³",
           heading=_LOOSE),
    Option("spinning", "minutes_per_g", "minutes for a gram", heading=_PACE),
    Option("spinning", "treadles_per_min", "treadles a minute", heading=_PACE),
    Option("spinning", "drive_ratio", "turns of the flyer for a treadle", heading=_PACE),
    Option("spinning", "direction", "singles are spun", WORDS, _SENSES,
           each="singles are spun, S or Z for each ply"),
    Option("spinning", "packed_density_g_per_cm3", "density in the twisted yarn, g/cm³"),
    Option("spinning", "card_loss", "lost in carding, %", PER_CENT),
    Option("spinning", "spin_loss", "lost in spinning, %", PER_CENT),
    Option("spinning", "variation", "unevenness between portions, %", PER_CENT),
    Option("plying", "twist_tpi", "turns in an inch", heading=_PLY_TWIST),
    Option("plying", "twist_tpm", "turns in a metre", heading=_PLY_TWIST),
    Option("plying", "balance", "for a balanced yarn", WORD, tuple(balance.WORDS.items()),
           heading=_PLY_TWIST),
    Option("plying", "contraction", "measured, %", PER_CENT, heading=_LOST),
    Option("plying", "contraction_model", "reckoned by", WORD, tuple(MODEL_WORDS.items()),
           heading=_LOST),
    Option("plying", "treadles_per_min", "treadles a minute", heading=_PLY_PACE),
    Option("plying", "drive_ratio", "turns of the flyer for a treadle", heading=_PLY_PACE),
    Option("plying", "wound_off", "winding before plying", NUMBERS, _WINDINGS,
           each="times wound off, for each ply: 0, 1, 2"),
    Option("plying", "direction", "plied", WORD, _SENSES),
    Option("plying", "strands", "strands in each ply", NUMBERS),
    Option("plying", "resting_shrinkage", "shortens when it rests, %", PER_CENT),
    Option("bobbins", "count", "bobbins that fit the wheel"),
    Option("bobbins", "capacity_g", "a bobbin holds, g"),
    Option("bobbins", "tare_g", "an empty bobbin weighs, g, one or each", NUMBERS),
    Option("bobbins", "plying_count", "plying bobbins that fit"),
    Option("bobbins", "plying_capacity_g", "a plying bobbin holds, g"),
    Option("bobbins", "plying_tare_g", "an empty plying bobbin weighs, g"),
    Option("scale", "step_g", "the scale shows steps of, g"),
    Option("scale", "regain", "water in the fibre when weighed, % of dry mass", PER_CENT),
    Option("target", "yarn_m", "metres of yarn", heading="How much yarn? One of the two"),
    Option("target", "yarn_g", "grams of yarn", heading="How much yarn? One of the two"),
    Option("fabric", "kind", "knitted", WORD, tuple(KIND_WORDS.items())),
    Option("fabric", "stitches", "stitches cast on"),
    Option("fabric", "rows", "rows or rounds"),
    Option("fabric", "increases_per_row", "increases in a row, of a triangle"),
    Option("fabric", "gauge_stitches", "stitches in 10 cm"),
    Option("fabric", "gauge_rows", "rows in 10 cm"),
    Option("fabric", "swatch", "a weighed swatch: stitches, rows, g", NUMBERS,
           parts=("stitches", "rows", "mass_g")),
    Option("fabric", "finishing_shrinkage", "shrinks in the wash, %", PER_CENT),
)  # fmt: skip
"""In the order in which a form shows them."""


def options_of(plan: Plan) -> tuple[Option, ...]:
    """Return the options that matter for a plan's scheme, and those that it gives anyway."""
    name = scheme_name(plan.scheme)
    data = to_data(plan)
    return tuple(
        one
        for one in OPTIONS
        if not one.schemes or name in one.schemes or given(data, one) is not None
    )


def given(data: dict[str, Any], option: Option) -> Any:
    """Return what a plan's data give for an option; None where nothing."""
    table = data if not option.table else data.get(option.table, {})
    return table.get(option.key)
