"""What a plan uses where an option is left empty, and where that comes from, in few words."""

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yarncolor.answers.hours import hours
from yarncolor.answers.knitted_piece import KnittedPiece, piece
from yarncolor.editing.option_text import format_number, format_value
from yarncolor.layout.assumptions import Assumption, Why
from yarncolor.layout.layout import Layout
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.measures import METRIC
from yarncolor.phrases import (
    CLOSING_WORDS,
    KIND_WORDS,
    MODEL_WORDS,
    divisions_text,
    winding_words,
)
from yarncolor.plan import Plan
from yarncolor.plan.key import Key
from yarncolor.plan.reference import KEYS
from yarncolor.units import m_per_100g, tpi
from yarncolor.yarn.balance import WORDS as BALANCES
from yarncolor.yarn.given import ply_twists
from yarncolor.yarn.knitted_size import INCREASES_PER_ROW
from yarncolor.yarn.structure import YarnStructure
from yarncolor.yarn.twist import twist_factor

_Words = Callable[[Layout], str]
NONE, NOT_KNOWN, USUAL = "none", "not known", "(usual)"
_GUESS = "a guess by the yarn’s thickness; knit a swatch"
_SAMPLE_M = 10.0
_REPEATS = dict(KEYS["scheme", "repeat"].choices)
_FROM = {
    "mass_g": "(the most grams)",
    "single_tex": "from the tex you gave",
    "single_m_per_g": "from your m in a gram",
    "sample": "from your weighed {spinning.sample.length_m:g} m",
    "yarn_m_per_100g": "from the finished yarn's m",
    "single_wpi": "from the single's wraps",
    "yarn_wpi": "from the finished yarn's wraps",
    "wrapped_skein": "from your wrapped skein",
    "relaxed_density_g_per_cm3": "from the density",
    "twist_tpm": "from the turns in a metre",
    "twist_tpi": "from the turns in an inch",
    "twist_angle_deg": "from the angle",
    "twist_factor": "from the mill's count of twist",
    **dict.fromkeys(BALANCES, "for a balanced yarn"),
    "width_cm": "from the width",
    "gauge_rows": "from the rows",
    "swatch": "from your swatch",
    "direction": "(against the plying)",
    "spinning.direction": "(against the singles)",
    "helix": "from the twist of the plies",
    "untwisting": "from the twists",
}
"""Where a value comes from, by the first of what it follows from."""


def value_in_use(laid: Layout, option: Key) -> str:
    """Return what is used for an option that is left empty: its value, and where from.

    Parameters
    ----------
    laid : Layout
        Of a plan that leaves the option empty.
    option : Key
        A key of the plan file that a form shows.
    """
    figure = laid.resolved.by_hand(option.table, option.name)
    if figure is not None:
        return f"{format_value(option, figure.value)} from your hand"
    words = _SHOWN.get((option.table, option.name))
    return _declared(option) if words is None else words(laid)


def ply_by_ply(resolved: ResolvedPlan, option: Key) -> str:
    """Return what every ply has of an option that may differ from ply to ply, as it is typed.

    Parameters
    ----------
    resolved : ResolvedPlan
        The plan.
    option : Key
        The winding before plying, or the direction of the singles.
    """
    own = {"wound_off": resolved.wound_off.tolist(), "direction": resolved.yarn.directions}
    return ", ".join(map(str, own[option.name]))


def _declared(option: Key) -> str:
    """Return what is declared to stand in for a key, where nothing has to be reckoned."""
    if option.default is None:
        return option.otherwise or NOT_KNOWN
    text = format_value(option, option.default)
    return f"{option.choice_words.get(text, text)} {USUAL}"


def _near(value: float) -> str:
    """Return a number as a spinner needs it: a tenth from one up, whole from a hundred up."""
    size = abs(value)
    if size < 1:
        return f"{value:.2g}"
    return f"{value:.0f}" if size >= 100 else f"{value:.1f}".removesuffix(".0")


def _range(values: ArrayLike) -> str:
    """Return one number for plies that are alike, else the least and the most."""
    low, high = _near(float(np.min(values))), _near(float(np.max(values)))
    return low if low == high else f"{low} to {high}"


def _whence(used: Assumption, plan: Plan) -> str:
    if used.why is Why.USUAL:
        return "as you chose" if used.by else USUAL
    return _FROM[used.by[0]].format(spinning=plan.spinning)


def _used(table: str, key: str, text: Callable[[Any, YarnStructure], str]) -> _Words:
    """Return the words for a key: its value in use as a text, and where that comes from."""

    def words(laid: Layout) -> str:
        used = laid.resolved.assumed(table, key)
        if used is None:
            return NOT_KNOWN
        return f"{text(used.value, laid.resolved.yarn)} {_whence(used, laid.resolved.plan)}"

    return words


def _scheme(key: str, text: Callable[[Any], str]) -> _Words:
    return _used("scheme", key, lambda value, _: text(value))


def _grist(measure: Callable[[YarnStructure], ArrayLike]) -> _Words:
    return _used("spinning", "single_tex", lambda _, yarn: _range(measure(yarn)))


def _twist(measure: Callable[[Any, YarnStructure], ArrayLike]) -> _Words:
    return _used("spinning", "twist_tpm", lambda tpm, yarn: _range(measure(tpm, yarn)))


def _factors(twist_tpm: NDArray[np.float64], yarn: YarnStructure) -> list[float]:
    pairs = zip(twist_tpm.tolist(), yarn.strand_tex.tolist(), strict=True)
    return [twist_factor(*pair) for pair in pairs]


def _per_cent(share: float, _: YarnStructure) -> str:
    return format_number(share * 100)


def _sample(_: Any, yarn: YarnStructure) -> str:
    return f"{_near(_SAMPLE_M)}, {_near(float(yarn.strand_tex.mean()) * _SAMPLE_M / 1000)}"


def _wrapped(_: Any, yarn: YarnStructure) -> str:
    return f"{_near(yarn.wpi(yarn.yarn_tex))}, {_near(m_per_100g(yarn.yarn_tex))}"


def _wrapped_skein(laid: Layout) -> str:
    words = _used("spinning", "relaxed_density_g_per_cm3", _wrapped)(laid)
    return words.replace(USUAL, "at the usual density")


def _model(laid: Layout) -> str:
    used = laid.resolved.assumed("plying", "contraction_model")
    if used is None:
        return NOT_KNOWN
    return "not asked: it is measured" if used.by else f"{MODEL_WORDS[used.value]} {USUAL}"


def _balance(laid: Layout) -> str:
    return "none: the turns count" if ply_twists(laid.resolved.plan.plying) else NONE


def _as_in_spinning(key: str) -> _Words:
    def words(laid: Layout) -> str:
        value = getattr(laid.resolved.plan.spinning, key)
        return NOT_KNOWN if value is None else f"{format_number(value)} as in spinning"

    return words


def _minutes(laid: Layout) -> str:
    takes = hours(laid)
    if takes.by_treadling_h is None:
        return NOT_KNOWN
    minutes_per_g = takes.by_treadling_h * 60 / laid.portions.mass_g.sum()
    return f"{_near(minutes_per_g)} from treadles and twist"


def _step(laid: Layout) -> str:
    used = laid.resolved.assumed("scale", "step_g")
    if used is None:
        return NOT_KNOWN
    shown = format_number(used.value) if laid.say is METRIC else laid.say.step(used.value)
    return f"{shown} {USUAL}"


def _target(wanted: str, there: Callable[[Layout], float]) -> _Words:
    def words(laid: Layout) -> str:
        if laid.resolved.plan.target is None:
            return "no target"
        return f"{_near(there(laid))} from the {wanted} wanted"

    return words


def _knitted(text: Callable[[KnittedPiece], str], nothing: str = NOT_KNOWN) -> _Words:
    def words(laid: Layout) -> str:
        knit = piece(laid)
        return nothing if knit is None else text(knit)

    return words


def _fabric(key: str, text: Callable[[Any], str]) -> _Words:
    """Return the words for a key of the fabric; a gauge by thickness alone is called a guess."""

    def words(laid: Layout) -> str:
        used = laid.resolved.assumed("fabric", key)
        if used is None:
            return NOT_KNOWN
        guessed = key == "gauge_stitches" and used.why is Why.USUAL
        whence = _GUESS if guessed else _whence(used, laid.resolved.plan)
        return f"{text(used.value)} {whence}"

    return words


def _rows(knit: KnittedPiece) -> str:
    """Return the rows of a piece that does not say how many: a wingspan tells, else the yarn."""
    told = f"{knit.rows} from the wingspan"
    return told if knit.rows else f"up to {knit.rows_possible} from this yarn"


def _width(knit: KnittedPiece) -> str:
    width_cm = knit.wingspan_cm if knit.kind == "triangle" else knit.width_cm
    return NOT_KNOWN if width_cm is None else f"{_near(width_cm)} from the stitches"


def _increases(laid: Layout) -> str:
    grows = laid.resolved.plan.fabric.kind == "triangle"
    return f"{format_number(INCREASES_PER_ROW)} {USUAL}" if grows else NONE


def _says(text: str) -> _Words:
    return lambda _: text


_SHOWN: dict[tuple[str, str], _Words] = {
    ("scheme", "divisions"): _scheme("divisions", divisions_text),
    ("scheme", "closing"): _scheme("closing", CLOSING_WORDS.__getitem__),
    ("scheme", "copies"): _scheme("copies", format_number),
    ("scheme", "stagger_places"): _scheme("stagger_places", format_number),
    ("scheme", "blend_steps"): _scheme("blend_steps", format_number),
    ("scheme", "solid_plies"): _scheme("solid_plies", lambda plies: ", ".join(map(str, plies))),
    ("scheme", "solid_lot"): _scheme("solid_lot", str),
    ("scheme", "random_seed"): _scheme("random_seed", format_number),
    ("scheme", "pieces"): _scheme("pieces", format_number),
    ("scheme", "repeat"): _scheme("repeat", _REPEATS.__getitem__),
    ("scheme", "loop_m"): _scheme("loop_m", format_number),
    ("scheme", "times"): _scheme("times", lambda times: ", ".join(map(str, sorted({*times})))),
    ("scheme", "sequence"): _says(f"the lots as they stand {USUAL}"),
    ("scheme", "parts"): _says(f"equal parts {USUAL}"),
    ("spinning", "single_m_per_g"): _grist(lambda yarn: 1000 / yarn.strand_tex),
    ("spinning", "single_tex"): _grist(lambda yarn: yarn.strand_tex),
    ("spinning", "single_wpi"): _grist(lambda yarn: [yarn.wpi(tex) for tex in yarn.strand_tex]),
    ("spinning", "sample"): _used("spinning", "single_tex", _sample),
    ("spinning", "yarn_m_per_100g"): _grist(lambda yarn: m_per_100g(yarn.finished_tex)),
    ("spinning", "yarn_wpi"): _grist(lambda yarn: yarn.wpi(yarn.finished_tex)),
    ("spinning", "twist_tpi"): _twist(lambda twist_tpm, _: tpi(twist_tpm)),
    ("spinning", "twist_tpm"): _twist(lambda twist_tpm, _: twist_tpm),
    ("spinning", "twist_angle_deg"): _twist(lambda _, yarn: np.asarray(yarn.surface_angles_deg)),
    ("spinning", "twist_factor"): _twist(_factors),
    ("spinning", "wrapped_skein"): _wrapped_skein,
    ("spinning", "relaxed_density_g_per_cm3"): _used(
        "spinning", "relaxed_density_g_per_cm3", lambda density, _: _near(density)
    ),
    ("spinning", "packed_density_g_per_cm3"): _used(
        "spinning", "packed_density_g_per_cm3", lambda density, _: _near(density)
    ),
    ("spinning", "direction"): _used("spinning", "direction", lambda each, _: str(each[0])),
    ("spinning", "card_loss"): _used("spinning", "card_loss", _per_cent),
    ("spinning", "spin_loss"): _used("spinning", "spin_loss", _per_cent),
    ("spinning", "minutes_per_g"): _minutes,
    ("plying", "wound_off"): lambda laid: f"{winding_words(laid.resolved.plan)} {USUAL}",
    ("plying", "twist_tpi"): _used("plying", "twist_tpm", lambda turns, _: _near(tpi(turns))),
    ("plying", "twist_tpm"): _used("plying", "twist_tpm", lambda turns, _: _near(turns)),
    ("plying", "balance"): _balance,
    ("plying", "contraction"): _used("plying", "contraction", lambda c, _: _near(c * 100)),
    ("plying", "contraction_model"): _model,
    ("plying", "direction"): _used("plying", "direction", lambda sense, _: str(sense)),
    ("plying", "strands"): _used("plying", "strands", lambda strands, _: _range(strands)),
    ("plying", "treadles_per_min"): _as_in_spinning("treadles_per_min"),
    ("plying", "drive_ratio"): _as_in_spinning("drive_ratio"),
    ("scale", "step_g"): _step,
    ("target", "yarn_m"): _target("grams", lambda laid: laid.stretches.yarn_m),
    ("target", "yarn_g"): _target("metres", lambda laid: laid.yarn_g),
    ("fabric", "kind"): _knitted(
        lambda knit: f"{KIND_WORDS[knit.kind]} {USUAL}", "nothing is knitted"
    ),
    ("fabric", "stitches"): _fabric("stitches", str),
    ("fabric", "width_cm"): _knitted(_width),
    ("fabric", "gauge_stitches"): _fabric("gauge_stitches", _near),
    ("fabric", "rows"): _knitted(_rows),
    ("fabric", "increases_per_row"): _increases,
    ("fabric", "gauge_rows"): _knitted(lambda knit: f"{_near(knit.gauge_rows)} from the stitches"),
}
"""What has to be reckoned, by table and key, of a plan that leaves the key empty."""
