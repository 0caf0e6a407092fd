"""What a plan uses where an option is left empty, and where that comes from, in few words."""

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yarncolor.answers.hours import hours
from yarncolor.answers.knitted_piece import KnittedPiece, piece
from yarncolor.editing.field_units import in_units, per_typed
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
from yarncolor.plan.key import Key
from yarncolor.plan.reference import KEYS
from yarncolor.plan.unit_words import IMPERIAL as IMPERIAL_WORDS
from yarncolor.plan.unit_words import METRIC as METRIC_WORDS
from yarncolor.plan.unit_words import in_words
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
    "mass_g": "(the most {grams})",
    "single_tex": "from the tex you gave",
    "single_m_per_g": "from your {m_in_a_gram}",
    "sample": "from your weighed {sample}",
    "yarn_m_per_100g": "from the finished yarn's {m}",
    "single_wpi": "from the single's wraps",
    "yarn_wpi": "from the finished yarn's wraps",
    "wrapped_skein": "from your wrapped skein",
    "relaxed_density_g_per_cm3": "from the density",
    "twist_tpm": "from the turns in {a_metre}",
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
        return f"{format_value(in_units(option, laid.say), figure.value)} from your hand"
    words = _SHOWN.get((option.table, option.name))
    return _declared(in_units(option, laid.say)) if words is None else words(laid)


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


def _in_unit(laid: Layout, table: str, key: str, value: Any) -> Any:
    """Return a value of a key in the unit that stands beside its field."""
    own = in_units(KEYS[table, key], laid.say)
    return np.asarray(value) / per_typed(own.unit, own.typed)


def _whence(used: Assumption, laid: Layout) -> str:
    if used.why is Why.USUAL:
        return "as you chose" if used.by else USUAL
    words = in_words(_FROM[used.by[0]], METRIC_WORDS if laid.say is METRIC else IMPERIAL_WORDS)
    sample = laid.resolved.plan.spinning.sample
    return words.replace("{sample}", laid.say.length.given(sample.length_m) if sample else "")


def _used(table: str, key: str, text: Callable[[Any, Layout], str]) -> _Words:
    """Return the words for a key: its value in use as a text, and where that comes from."""

    def words(laid: Layout) -> str:
        used = laid.resolved.assumed(table, key)
        if used is None:
            return NOT_KNOWN
        return f"{text(used.value, laid)} {_whence(used, laid)}"

    return words


def _scheme(key: str, text: Callable[[Any], str]) -> _Words:
    return _used("scheme", key, lambda value, _: text(value))


def _grist(measure: Callable[[YarnStructure], ArrayLike], key: str = "single_tex") -> _Words:
    def text(_: Any, laid: Layout) -> str:
        return _range(_in_unit(laid, "spinning", key, measure(laid.resolved.yarn)))

    return _used("spinning", "single_tex", text)


def _twist(measure: Callable[[Any, YarnStructure], ArrayLike], key: str = "twist_tpi") -> _Words:
    def text(twist_tpm: Any, laid: Layout) -> str:
        return _range(_in_unit(laid, "spinning", key, measure(twist_tpm, laid.resolved.yarn)))

    return _used("spinning", "twist_tpm", text)


def _factors(twist_tpm: NDArray[np.float64], yarn: YarnStructure) -> list[float]:
    pairs = zip(twist_tpm.tolist(), yarn.strand_tex.tolist(), strict=True)
    return [twist_factor(*pair) for pair in pairs]


def _per_cent(share: float, _: Layout) -> str:
    return format_number(share * 100)


def _sample(_: Any, laid: Layout) -> str:
    """Return what ten metres weigh, or ten yards."""
    length_m = _SAMPLE_M * laid.say.length.size
    mass_g = float(laid.resolved.yarn.strand_tex.mean()) * length_m / 1000
    return f"{_near(_SAMPLE_M)}, {_near(laid.say.mass.of(mass_g))}"


def _wrapped(_: Any, laid: Layout) -> str:
    yarn = laid.resolved.yarn
    grist = laid.say.grist.of(m_per_100g(yarn.yarn_tex))
    return f"{_near(yarn.wpi(yarn.yarn_tex))}, {_near(grist)}"


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


def _loop(loop_m: float, laid: Layout) -> str:
    return format_value(in_units(KEYS["scheme", "loop_m"], laid.say), loop_m)


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
    return f"{_near(laid.say.pace.of(float(minutes_per_g)))} from treadles and twist"


def _step(laid: Layout) -> str:
    used = laid.resolved.assumed("scale", "step_g")
    if used is None:
        return NOT_KNOWN
    shown = format_number(used.value) if laid.say is METRIC else laid.say.step(used.value)
    return f"{shown} {USUAL}"


def _target(key: str, there: Callable[[Layout], float]) -> _Words:
    def words(laid: Layout) -> str:
        if laid.resolved.plan.target is None:
            return "no target"
        wanted = laid.say.length.plural if key == "yarn_g" else laid.say.mass.plural
        return f"{_near(_in_unit(laid, 'target', key, there(laid)))} from the {wanted} wanted"

    return words


def _knitted(text: Callable[[KnittedPiece, Layout], str], nothing: str = NOT_KNOWN) -> _Words:
    def words(laid: Layout) -> str:
        knit = piece(laid)
        return nothing if knit is None else text(knit, laid)

    return words


def _fabric(key: str, text: Callable[[Any, Layout], str]) -> _Words:
    """Return the words for a key of the fabric; a gauge by thickness alone is called a guess."""

    def words(laid: Layout) -> str:
        used = laid.resolved.assumed("fabric", key)
        if used is None:
            return NOT_KNOWN
        guessed = key == "gauge_stitches" and used.why is Why.USUAL
        whence = _GUESS if guessed else _whence(used, laid)
        return f"{text(used.value, laid)} {whence}"

    return words


def _gauge(gauge: float, laid: Layout) -> str:
    return _near(laid.say.gauge.of(gauge))


def _rows(knit: KnittedPiece, _: Layout) -> str:
    """Return the rows of a piece that does not say how many: a wingspan tells, else the yarn."""
    told = f"{knit.rows} from the wingspan"
    return told if knit.rows else f"up to {knit.rows_possible} from this yarn"


def _width(knit: KnittedPiece, laid: Layout) -> str:
    width_cm = knit.wingspan_cm if knit.kind == "triangle" else knit.width_cm
    return (
        NOT_KNOWN if width_cm is None else f"{_near(laid.say.width.of(width_cm))} from the stitches"
    )


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
    ("scheme", "loop_m"): _used("scheme", "loop_m", _loop),
    ("scheme", "times"): _scheme("times", lambda times: ", ".join(map(str, sorted({*times})))),
    ("scheme", "sequence"): _says(f"the lots as they stand {USUAL}"),
    ("scheme", "parts"): _says(f"equal parts {USUAL}"),
    ("spinning", "single_m_per_g"): _grist(lambda yarn: 1000 / yarn.strand_tex, "single_m_per_g"),
    ("spinning", "single_tex"): _grist(lambda yarn: yarn.strand_tex),
    ("spinning", "single_wpi"): _grist(lambda yarn: [yarn.wpi(tex) for tex in yarn.strand_tex]),
    ("spinning", "sample"): _used("spinning", "single_tex", _sample),
    ("spinning", "yarn_m_per_100g"): _grist(lambda yarn: m_per_100g(yarn.finished_tex)),
    ("spinning", "yarn_wpi"): _grist(lambda yarn: yarn.wpi(yarn.finished_tex)),
    ("spinning", "twist_tpi"): _twist(lambda twist_tpm, _: tpi(twist_tpm)),
    ("spinning", "twist_tpm"): _twist(lambda twist_tpm, _: twist_tpm, "twist_tpm"),
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
    ("plying", "twist_tpm"): _used(
        "plying",
        "twist_tpm",
        lambda turns, laid: _near(float(_in_unit(laid, "plying", "twist_tpm", turns))),
    ),
    ("plying", "balance"): _balance,
    ("plying", "contraction"): _used("plying", "contraction", lambda c, _: _near(c * 100)),
    ("plying", "contraction_model"): _model,
    ("plying", "direction"): _used("plying", "direction", lambda sense, _: str(sense)),
    ("plying", "strands"): _used("plying", "strands", lambda strands, _: _range(strands)),
    ("plying", "treadles_per_min"): _as_in_spinning("treadles_per_min"),
    ("plying", "drive_ratio"): _as_in_spinning("drive_ratio"),
    ("scale", "step_g"): _step,
    ("target", "yarn_m"): _target("yarn_m", lambda laid: laid.stretches.yarn_m),
    ("target", "yarn_g"): _target("yarn_g", lambda laid: laid.yarn_g),
    ("fabric", "kind"): _knitted(
        lambda knit, _: f"{KIND_WORDS[knit.kind]} {USUAL}", "nothing is knitted"
    ),
    ("fabric", "stitches"): _fabric("stitches", lambda stitches, _: str(stitches)),
    ("fabric", "width_cm"): _knitted(_width),
    ("fabric", "gauge_stitches"): _fabric("gauge_stitches", _gauge),
    ("fabric", "rows"): _knitted(_rows),
    ("fabric", "increases_per_row"): _increases,
    ("fabric", "gauge_rows"): _knitted(
        lambda knit, laid: f"{_gauge(knit.gauge_rows, laid)} from the stitches"
    ),
}
"""What has to be reckoned, by table and key, of a plan that leaves the key empty."""
