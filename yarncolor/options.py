"""Every option of a plan by table: its words, how it is typed, and when it matters."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from yarncolor.balance import CRITERIA
from yarncolor.choice_words import divisions_in, divisions_text
from yarncolor.closing import CLOSINGS
from yarncolor.defaults import scheme_name
from yarncolor.errors import Fault, PlanError
from yarncolor.plan import Plan, to_data

NUMBER, NUMBERS, WORD, LINE, LINES, PORTIONS, REPEATS = (
    "number",
    "numbers",
    "word",
    "line",
    "lines",
    "portions",
    "repeats",
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
        How it is typed: number, numbers (one, or one for each ply), word (one of `choices`),
        line, lines, portions, repeats.
    choices : tuple of str
        For a word; "lots" stands for the names of all lots.
    schemes : tuple of str
        Schemes for which it matters; empty for all.
    parts : tuple of str
        Keys of a small table that is typed as its numbers, one after the other.
    """

    table: str
    key: str
    words: str
    kind: str = NUMBER
    choices: tuple[str, ...] = ()
    schemes: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()


_REVERSIBLE = ("matched", "staggered", "fractal")
_SENSES = ("S", "Z")

OPTIONS: tuple[Option, ...] = (
    Option("", "title", "title", LINE),
    Option("", "purpose", "what it is for", LINES),
    Option("scheme", "divisions", "times through, for each ply", REPEATS, schemes=("fractal",)),
    Option(
        "scheme", "closing", "where the sequence closes", WORD, tuple(CLOSINGS), ("fractal",)
    ),
    Option("scheme", "reversed_plies", "plies spun in reverse", NUMBERS, schemes=_REVERSIBLE),
    Option("scheme", "stagger_places", "each ply starts so many places on", schemes=("staggered",)),
    Option("scheme", "blend_steps", "carded blends between neighbours", schemes=("gradient",)),
    Option("scheme", "solid_plies", "plies of the plain lot", NUMBERS, schemes=("solid",)),
    Option("scheme", "solid_lot", "the plain lot", WORD, ("lots",), ("solid",)),
    Option("scheme", "random_seed", "number of the draw", schemes=("shuffled",)),
    Option("scheme", "pieces", "pieces of each lot", schemes=("shuffled",)),
    Option("scheme", "loop_m", "length of a loop, m", schemes=("chain",)),
    Option("scheme", "parts", "parts of each place, in order", NUMBERS),
    Option("scheme", "portions", "portions: ply, lot, grams, one a line", PORTIONS,
           schemes=("free",)),
    Option("spinning", "single_m_per_g", "single, m in a gram", NUMBERS),
    Option("spinning", "single_tex", "single, tex", NUMBERS),
    Option("spinning", "single_wpi", "single, wraps to the inch", NUMBERS),
    Option("spinning", "yarn_m_per_100g", "finished yarn, m in 100 g"),
    Option("spinning", "yarn_wpi", "finished yarn, wraps to the inch"),
    Option("spinning", "sample", "a weighed length of single: m, g", NUMBERS,
           parts=("length_m", "mass_g")),
    Option("spinning", "wrapped_skein", "a wrapped skein: wraps to the inch, m in 100 g", NUMBERS,
           parts=("wpi", "m_per_100g")),
    Option("spinning", "packed_density_g_per_cm3", "density in the twist, g/cm³"),
    Option("spinning", "relaxed_density_g_per_cm3", "density on the ruler, g/cm³"),
    Option("spinning", "twist_tpi", "twist of the singles, to the inch", NUMBERS),
    Option("spinning", "twist_tpm", "twist of the singles, to the metre", NUMBERS),
    Option("spinning", "twist_angle_deg", "angle of the outer fibres, degrees", NUMBERS),
    Option("spinning", "twist_factor", "twist factor, turns a metre × √tex", NUMBERS),
    Option("spinning", "direction", "singles are spun", WORD, _SENSES),
    Option("spinning", "card_loss", "lost in carding, a share"),
    Option("spinning", "spin_loss", "lost in spinning, a share"),
    Option("spinning", "variation", "unevenness between portions, a share"),
    Option("spinning", "minutes_per_g", "minutes for a gram"),
    Option("spinning", "treadles_per_min", "treadles a minute, spinning"),
    Option("spinning", "drive_ratio", "turns for a treadle, spinning"),
    Option("plying", "wound_off", "times wound off, one for all or each", NUMBERS),
    Option("plying", "strands", "strands in each ply", NUMBERS),
    Option("plying", "twist_tpi", "ply twist, to the inch"),
    Option("plying", "twist_tpm", "ply twist, to the metre"),
    Option("plying", "balance", "ply twist chosen by", WORD, tuple(CRITERIA)),
    Option("plying", "direction", "plied", WORD, _SENSES),
    Option("plying", "contraction_model", "length lost in plying, by", WORD,
           ("untwisting", "helix", "none")),
    Option("plying", "contraction", "length lost in plying, measured, a share"),
    Option("plying", "resting_shrinkage", "shortens when it rests, a share"),
    Option("plying", "treadles_per_min", "treadles a minute, plying"),
    Option("plying", "drive_ratio", "turns for a treadle, plying"),
    Option("bobbins", "count", "bobbins that fit the wheel"),
    Option("bobbins", "capacity_g", "a bobbin holds, g"),
    Option("bobbins", "tare_g", "an empty bobbin weighs, g, one or each", NUMBERS),
    Option("bobbins", "plying_count", "plying bobbins that fit"),
    Option("bobbins", "plying_capacity_g", "a plying bobbin holds, g"),
    Option("bobbins", "plying_tare_g", "an empty plying bobbin weighs, g"),
    Option("scale", "step_g", "the scale shows steps of, g"),
    Option("scale", "regain", "water in the fibre when weighed, over dry mass"),
    Option("target", "yarn_m", "yarn wanted, m"),
    Option("target", "yarn_g", "yarn wanted, g"),
    Option("fabric", "kind", "knitted", WORD, ("flat", "round", "triangle")),
    Option("fabric", "stitches", "stitches cast on"),
    Option("fabric", "rows", "rows or rounds"),
    Option("fabric", "increases_per_row", "stitches won in a row"),
    Option("fabric", "gauge_stitches", "stitches in 10 cm"),
    Option("fabric", "gauge_rows", "rows in 10 cm"),
    Option("fabric", "swatch", "a weighed swatch: stitches, rows, g", NUMBERS,
           parts=("stitches", "rows", "mass_g")),
    Option("fabric", "finishing_shrinkage", "shrinks in the wash, a share"),
)  # fmt: skip
"""In the order in which a form shows them."""


def options_of(plan: Plan) -> tuple[Option, ...]:
    """Return the options that matter for a plan's scheme, and those that it gives anyway."""
    name = scheme_name(plan.scheme)
    data = to_data(plan)
    return tuple(
        one
        for one in OPTIONS
        if not one.schemes or name in one.schemes or _given(data, one) is not None
    )


def text_of(plan: Plan, option: Option) -> str:
    """Return what a plan gives for an option, as it would be typed; empty where nothing."""
    value = _given(to_data(plan), option)
    if value is None:
        return ""
    if option.parts:
        return ", ".join(number_text(value[part]) for part in option.parts)
    if option.kind == PORTIONS:
        return "\n".join(
            f"{row['ply']}, {row['lot']}, {number_text(row['mass_g'])}" for row in value
        )
    if option.kind == REPEATS:
        return divisions_text(value)
    if isinstance(value, list):
        return ", ".join(each if isinstance(each, str) else number_text(each) for each in value)
    return value if isinstance(value, str) else number_text(value)


def value_of(option: Option, text: str) -> Any:
    """Return what a typed text gives for a key of the plan file; None takes it away.

    Raises
    ------
    PlanError
        Where the text cannot be read at all; ranges are the plan file's own to judge.
    """
    text = text.strip()
    return _READ[option.kind](option, text) if text else None


def _given(data: dict[str, Any], option: Option) -> Any:
    table = data if not option.table else data.get(option.table, {})
    return table.get(option.key)


def number_text(value: float) -> str:
    """Return a number as it would be typed."""
    return f"{value:.10g}"


def number_of(text: str) -> int | float | str:
    """Return a number as typed, with a point or a comma; what is none stays a text."""
    text = text.strip()
    try:
        return int(text)
    except ValueError:
        pass
    try:
        return float(text.replace(",", ".") if text.count(",") == 1 else text)
    except ValueError:
        return text


def _numbers(text: str) -> list[int | float | str]:
    """Return numbers parted by commas, semicolons or spaces; a comma alone may be decimal.

    "1,5; 2" and "1,5 2" are two numbers; "1, 2, 4" are three.
    """
    by = r"\s*;\s*|\s+" if ";" in text or not re.search(r",(\s|$)|,.*,", text) else r"\s*,\s*"
    return [number_of(part) for part in re.split(by, text.strip()) if part]


def _portion(row: str) -> dict[str, Any]:
    ply, _, rest = row.partition(",")
    lot, _, grams = rest.rpartition(",")
    return {"ply": number_of(ply), "lot": lot.strip(), "mass_g": number_of(grams)}


def _listed(option: Option, text: str) -> Any:
    numbers = _numbers(text)
    if option.parts and len(numbers) != len(option.parts):
        remedy = f"give {len(option.parts)} numbers, one after the other"
        raise PlanError([Fault("", option.key, text, remedy)])
    if option.parts:
        return dict(zip(option.parts, numbers, strict=True))
    return numbers[0] if len(numbers) == 1 and option.table != "scheme" else numbers


_READ: dict[str, Callable[[Option, str], Any]] = {
    WORD: lambda _, text: text,
    LINE: lambda _, text: text,
    LINES: lambda _, text: text,
    NUMBER: lambda _, text: number_of(text),
    NUMBERS: _listed,
    REPEATS: lambda _, text: divisions_in(text),
    PORTIONS: lambda _, text: [_portion(row) for row in text.splitlines() if row.strip()],
}
