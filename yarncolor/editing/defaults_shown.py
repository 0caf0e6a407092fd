"""What a plan uses where an option is left empty, and where that comes from, in few words."""

from collections.abc import Callable

from yarncolor.answers.hours import hours
from yarncolor.answers.knitted_piece import INCREASES_PER_ROW, piece
from yarncolor.editing.option_text import format_number
from yarncolor.editing.yarn_defaults_shown import NOT_KNOWN, USUAL, YARN, near
from yarncolor.layout.layout import Layout
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.phrases import CLOSING_WORDS, KIND_WORDS, divisions_text, winding_words
from yarncolor.plan import Scheme
from yarncolor.plan.key import Key

_Words = Callable[[Layout], str]
NONE = "none"


def in_use(laid: Layout, option: Key) -> str:
    """Return what is used for an option that is left empty: its value, and where from."""
    key = (option.table, option.name)
    if key in YARN:
        return YARN[key](laid.resolved)
    return _OTHERS.get(key, lambda _: NOT_KNOWN)(laid)


def each_in_use(filled: ResolvedPlan, option: Key) -> str:
    """Return what every ply has of an option that may differ from ply to ply, as it is typed."""
    own = {"wound_off": filled.wound_off.tolist(), "direction": filled.yarn.directions}
    return ", ".join(map(str, own[option.name]))


def _usual(text: Callable[[Scheme], str]) -> _Words:
    return lambda laid: f"{text(laid.resolved.scheme)} {USUAL}"


def _share(key: str) -> _Words:
    return lambda laid: f"{format_number(getattr(laid.resolved, key) * 100)} {USUAL}"


def _as_in_spinning(key: str) -> _Words:
    def told(laid: Layout) -> str:
        value = getattr(laid.resolved.plan.spinning, key)
        return NOT_KNOWN if value is None else f"{format_number(value)} as in spinning"

    return told


def _minutes(laid: Layout) -> str:
    takes = hours(laid)
    if takes.by_treadling_h is None:
        return NOT_KNOWN
    return f"{near(takes.by_treadling_h * 60 / laid.portions.mass_g.sum())} from treadles and twist"


def _wound_off(laid: Layout) -> str:
    return f"{winding_words(laid.resolved.plan)} {USUAL}"


def _metres(laid: Layout) -> str:
    if laid.resolved.plan.target is None:
        return "no target"
    return f"{near(laid.stretches.yarn_m)} from the grams wanted"


def _grams(laid: Layout) -> str:
    if laid.resolved.plan.target is None:
        return "no target"
    return f"{near(laid.yarn_g)} from the metres wanted"


def _kind(laid: Layout) -> str:
    knit = piece(laid)
    return "nothing is knitted" if knit is None else f"{KIND_WORDS[knit.kind]} {USUAL}"


def _rows(laid: Layout) -> str:
    knit = piece(laid)
    return NOT_KNOWN if knit is None else f"up to {knit.rows_possible} from this yarn"


def _gauge_rows(laid: Layout) -> str:
    knit = piece(laid)
    return NOT_KNOWN if knit is None else f"{near(knit.gauge_rows)} from the stitches"


def _increases(laid: Layout) -> str:
    grows = laid.resolved.plan.fabric.kind == "triangle"
    return f"{format_number(INCREASES_PER_ROW)} {USUAL}" if grows else NONE


_OTHERS: dict[tuple[str, str], _Words] = {
    ("", "title"): lambda _: NONE,
    ("", "purpose"): lambda _: "not said",
    ("scheme", "divisions"): _usual(lambda scheme: divisions_text(scheme.divisions)),
    ("scheme", "closing"): _usual(lambda scheme: CLOSING_WORDS[scheme.closing]),
    ("scheme", "reversed_plies"): lambda _: NONE,
    ("scheme", "stagger_places"): _usual(lambda scheme: format_number(scheme.stagger_places)),
    ("scheme", "blend_steps"): _usual(lambda scheme: format_number(scheme.blend_steps)),
    ("scheme", "solid_plies"): _usual(lambda scheme: ", ".join(map(str, scheme.solid_plies))),
    ("scheme", "solid_lot"): lambda laid: f"{laid.resolved.scheme.solid_lot} (the most grams)",
    ("scheme", "random_seed"): _usual(lambda scheme: format_number(scheme.random_seed)),
    ("scheme", "pieces"): _usual(lambda scheme: format_number(scheme.pieces)),
    ("scheme", "loop_m"): _usual(lambda scheme: format_number(scheme.loop_m)),
    ("scheme", "sequence"): lambda _: f"the lots as they stand {USUAL}",
    ("scheme", "parts"): lambda _: f"equal parts {USUAL}",
    ("scheme", "portions"): lambda _: NONE,
    ("spinning", "card_loss"): _share("card_loss"),
    ("spinning", "spin_loss"): _share("spin_loss"),
    ("spinning", "minutes_per_g"): _minutes,
    ("plying", "wound_off"): _wound_off,
    ("plying", "treadles_per_min"): _as_in_spinning("treadles_per_min"),
    ("plying", "drive_ratio"): _as_in_spinning("drive_ratio"),
    ("bobbins", "capacity_g"): lambda _: "no limit",
    ("bobbins", "plying_count"): lambda _: "one of those for spinning",
    ("bobbins", "plying_capacity_g"): lambda _: "no limit",
    ("scale", "step_g"): lambda laid: f"{format_number(laid.resolved.step_g)} {USUAL}",
    ("target", "yarn_m"): _metres,
    ("target", "yarn_g"): _grams,
    ("fabric", "kind"): _kind,
    ("fabric", "rows"): _rows,
    ("fabric", "increases_per_row"): _increases,
    ("fabric", "gauge_rows"): _gauge_rows,
    ("fabric", "swatch"): lambda _: "none weighed",
}
