"""What figures rest on: of each thing how it is known, and what would make it surer, and where.

How a key is known is read off what was resolved: from the spinner's hand, assumed, following from
other keys, or given. What hands measured is told apart by its key.
"""

from collections.abc import Iterable

from yarncolor.answers.answer import Answer
from yarncolor.layout.assumptions import Why
from yarncolor.phrases import counted
from yarncolor.plan.hands import RESTS_ON
from yarncolor.plan.key import attribute_of
from yarncolor.plan.reference import KEYS, keys_said_in
from yarncolor.plan.unit_words import IMPERIAL, METRIC, in_words
from yarncolor.report.assumption_text import ways_said
from yarncolor.report.why.reason import How, Source
from yarncolor.yarn.balance import WORDS as BALANCE_WORDS
from yarncolor.yarn.given import GRIST_WAYS, TWIST_WAYS, densities, ply_twists
from yarncolor.yarn.provenance import Provenance, of_grist

LOTS, OPTIONS, PHOTOGRAPHS, MIXTURES = "Lots", "Every option", "Photographs", "Mixtures"
AT_THE_WHEEL, HANDS, MADE = "At the wheel", "What hands do", "What came out"
SECTIONS = (LOTS, OPTIONS, PHOTOGRAPHS, MIXTURES, AT_THE_WHEEL, HANDS, MADE)
"""Sections of the page in which something is typed that makes a figure surer."""

_HOW: dict[Provenance, How] = {
    "given": "given",
    "measured": "measured",
    "derived": "reckoned",
    "assumed": "assumed",
}
_MEASURED = (("plying", "contraction"),)
"""Keys that say what was measured, whatever else they could say."""

_BY_SYSTEM = {METRIC: KEYS, IMPERIAL: keys_said_in(IMPERIAL)}


def of_key(answer: Answer, table: str, key: str, words: str, surer: str = "") -> Source:
    """Return how one key of the plan is known.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    table, key : str
        Where it stands in the plan file.
    words : str
        What it is called in a sentence.
    surer : str
        What would make it surer.
    """
    how, by = _how(answer, table, key)
    return Source(words, how, by, surer, OPTIONS)


def _how(answer: Answer, table: str, key: str) -> tuple[How, str]:
    resolved = answer.resolved
    figure = resolved.by_hand(table, key)
    if figure is not None:
        return "from your hand", f"by {counted(figure.rests_on, RESTS_ON.get(key, 'yarn'))}"
    assumed = resolved.assumed(table, key)
    if assumed is not None:
        usual = assumed.why is Why.USUAL
        return ("assumed", "as is usual") if usual else ("reckoned", "")
    value = getattr(getattr(answer.plan, table), attribute_of(key))
    if value is None:
        return "not said", ""
    return ("measured" if (table, key) in _MEASURED else "given"), ""


def _typed(answer: Answer, table: str, key: str) -> str:
    """Return a key as the form asks for it, in the units of the plan."""
    return f"“{_BY_SYSTEM[answer.plan.units or METRIC][table, key].words}”"


def in_units(answer: Answer, text: str) -> str:
    """Return a text with round figures and words of the units that the plan is said in.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    text : str
        With names of `unit_words.UNIT_WORDS` in braces.
    """
    return in_words(text, answer.plan.units or METRIC)


def grist(answer: Answer) -> Source:
    """Return how thick the singles are, and how that is known."""
    words, spinning, wheel = "thickness of the singles", answer.plan.spinning, answer.layout.wheel
    if wheel is not None and any(one.holds for one in wheel.grist):
        whole = all(one.holds for one in wheel.grist)
        by = "on the bobbins" if whole else "on some bobbins, the others as planned"
        surer = in_units(answer, "weigh a bobbin again while it fills, and say its {metres}")
        return Source(words, "measured", by, surer, AT_THE_WHEEL)
    given = [way for way in GRIST_WAYS if getattr(spinning, way) is not None]
    how = _HOW[of_grist(spinning)]
    by = f"by {ways_said(answer.say)[given[0]]}" if given else "as is usual"
    sample = _typed(answer, "spinning", "sample")
    surer = in_units(answer, "weigh {some_single} of single as you spin it, and enter ") + sample
    if how == "measured":
        surer = f"weigh a longer length from the middle of a bobbin, and enter {sample}"
    return Source(words, how, by, surer, OPTIONS)


def single_twist(answer: Answer) -> Source:
    """Return how much twist the singles have, and how that is known."""
    words, spinning = "twist of the singles", answer.plan.spinning
    given = [way for way in TWIST_WAYS if getattr(spinning, way) is not None]
    typed = _typed(answer, "spinning", "twist_tpi")
    surer = f"untwist an inch of single under a lens, count, and enter {typed}"
    if not given:
        return Source(words, "not said", "", surer, OPTIONS)
    how: How = "given" if given[0].startswith("twist_tp") else "reckoned"
    return Source(words, how, f"by {ways_said(answer.say)[given[0]]}", surer, OPTIONS)


def ply_twist(answer: Answer) -> Source:
    """Return how much ply twist there is, and how that is known."""
    words, plying = "ply twist", answer.plan.plying
    typed = _typed(answer, "plying", "twist_tpi")
    count = f"count the turns in an inch of plied yarn, and enter {typed}"
    if ply_twists(plying):
        return Source(words, "given", "", count, OPTIONS)
    if answer.resolved.yarn.ply_twist_tpm is None:
        return Source(words, "not said", "", count, OPTIONS)
    by = f"for a balanced yarn, {BALANCE_WORDS[str(plying.balance)]}"
    return Source(words, "reckoned", by, f"ply a fresh self-plied sample; {count}", OPTIONS)


def length_lost(answer: Answer) -> Source:
    """Return how much length is lost in plying, and how that is known."""
    words, ended = "length lost in plying", answer.layout.ended
    typed = _typed(answer, "plying", "contraction")
    ply = in_units(answer, "ply {some_yarn} of singles, let the yarn hang, measure it")
    surer = f"{ply}, and enter {typed} under the length lost in plying"
    if ended is not None and ended.tells_contraction:
        return Source(words, "measured", "where a single ran out", surer, OPTIONS)
    if answer.resolved.yarn.model == "none":
        return Source(words, "assumed", "to be none", surer, OPTIONS)
    how, by = _how(answer, "plying", "contraction")
    return Source(words, how, by, surer, OPTIONS)


def packed_density(answer: Answer) -> Source:
    """Return how dense the twisted yarn is, and how that is known."""
    surer = f"measure a single under a lens, reckon its density, and enter {_packed(answer)}"
    return of_key(answer, "spinning", "packed_density_g_per_cm3", "density in the twist", surer)


def _packed(answer: Answer) -> str:
    return _typed(answer, "spinning", "packed_density_g_per_cm3")


def ruler_density(answer: Answer) -> Source:
    """Return how loosely yarn lies on the ruler, and how that is known."""
    words, typed = "density as wrapped on a ruler", _typed(answer, "spinning", "wrapped_skein")
    surer = f"wrap a skein of your own that you have weighed and measured, and enter {typed}"
    ways = densities(answer.plan.spinning)
    if "wrapped_skein" in ways:
        return Source(words, "measured", "by a wrapped skein", f"{surer} again", OPTIONS)
    if ways:
        return Source(words, "given", "", surer, OPTIONS)
    return Source(words, "assumed", "as is usual", surer, OPTIONS)


def spin_loss(answer: Answer) -> Source:
    """Return what is lost in spinning, and how that is known."""
    surer = "weigh fibre before and bobbin after, and enter " + _typed(
        answer, "spinning", "spin_loss"
    )
    return of_key(answer, "spinning", "spin_loss", "loss in spinning", surer)


def card_loss(answer: Answer) -> Source:
    """Return what is lost in carding, and how that is known."""
    surer = "weigh a batt before and after, and enter " + _typed(answer, "spinning", "card_loss")
    return of_key(answer, "spinning", "card_loss", "loss in carding", surer)


def masses(answer: Answer) -> Source:
    """Return how much fibre there is of each lot: the plan says it."""
    damp = "" if answer.plan.scale.regain is None else " on the same day"
    words = in_units(answer, "{grams} of the lots")
    return Source(words, "given", "", f"weigh every lot{damp} on one scale", LOTS)


def step(answer: Answer) -> Source:
    """Return what the scale can show, and how that is known."""
    surer = "look at your scale, and enter " + _typed(answer, "scale", "step_g")
    return of_key(answer, "scale", "step_g", "the scale’s step", surer)


def order(answer: Answer) -> Source:
    """Return how lots are laid out, which the spinner decides."""
    return of_key(answer, "scheme", "name", "the scheme and its order")


def written_down_words(answer: Answer) -> str:
    """Return what is to be written down at the wheel, in the units of the plan."""
    return in_units(answer, "write down the {grams} and {metres} of each piece while you spin it")


def evenness(answer: Answer) -> Source:
    """Return how even the spinner's hands are, and how that is known."""
    surer = written_down_words(answer)
    how, by = _how(answer, "spinning", "variation")
    return Source("how even your hands are", how, by, surer, AT_THE_WHEEL)


def rest(answer: Answer) -> Source:
    """Return what a yarn loses at rest, and how that is known."""
    surer = "measure a skein fresh and after a night, and enter "
    key = "resting_shrinkage"
    return of_key(answer, "plying", key, "loss at rest", surer + _typed(answer, "plying", key))


def wash(answer: Answer) -> Source:
    """Return what a yarn loses in the wash, and how that is known."""
    key = "finishing_shrinkage"
    surer = "measure a skein before and after its wash, and enter " + _typed(answer, "fabric", key)
    return of_key(answer, "fabric", key, "loss in the wash", surer)


def pace(answer: Answer) -> tuple[Source, ...]:
    """Return how fast the spinner spins, and how that is known."""
    typed = _typed(answer, "spinning", "minutes_per_g")
    surer = in_units(answer, "spin {little_fibre} by the clock, and enter ") + typed
    if answer.plan.spinning.minutes_per_g is not None:
        return (of_key(answer, "spinning", "minutes_per_g", "your pace", surer),)
    return treadled(answer, surer)


def treadled(answer: Answer, surer: str = "") -> tuple[Source, ...]:
    """Return how fast the spinner treadles, and how that is known.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    surer : str
        What would make it surer.
    """
    treadles = of_key(answer, "spinning", "treadles_per_min", "your treadling", surer)
    return (treadles, of_key(answer, "spinning", "drive_ratio", "the wheel’s ratio", surer))


def plying_pace(answer: Answer) -> tuple[Source, ...]:
    """Return how fast the spinner plies, and how that is known."""
    surer = (
        f"count treadles while you ply, and enter {_typed(answer, 'plying', 'treadles_per_min')}"
    )
    keys = {"treadles_per_min": "treadling when plying", "drive_ratio": "the ratio for plying"}
    own = [key for key in keys if getattr(answer.plan.plying, key) is not None]
    return tuple(
        of_key(answer, "plying" if key in own else "spinning", key, words, surer)
        for key, words in keys.items()
    )


def gauge(answer: Answer) -> Source:
    """Return how many stitches there are in 10 cm, and how that is known."""
    surer = "knit and wash a swatch, count, and enter " + _typed(answer, "fabric", "gauge_stitches")
    return of_key(answer, "fabric", "gauge_stitches", "the gauge", surer)


def stitch(answer: Answer) -> Source:
    """Return how much yarn a stitch takes, and how that is known."""
    surer = (
        f"weigh a washed swatch without its ends, and enter {_typed(answer, 'fabric', 'swatch')}"
    )
    if answer.plan.fabric.swatch is not None:
        return Source("yarn in a stitch", "measured", "by a weighed swatch", surer, OPTIONS)
    return Source("yarn in a stitch", "reckoned", "from the gauge", surer, OPTIONS)


def size(answer: Answer, key: str, words: str) -> Source:
    """Return how large the piece is to be, and how that is known.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    key : str
        stitches or rows.
    words : str
        What that is called.
    """
    return of_key(answer, "fabric", key, words)


def damp(answer: Answer) -> Source:
    """Return how damp the fibre was when it was weighed, and how that is known."""
    words, typed = "water on the day of weighing", _typed(answer, "scale", "regain")
    surer = f"dry a weighed sample in a warm oven, weigh it again, and enter {typed}"
    if answer.plan.scale.regain is None:
        return Source(words, "assumed", "as in an ordinary room", surer, OPTIONS)
    return Source(words, "given", "", surer, OPTIONS)


def bobbins(answer: Answer) -> Source:
    """Return what a bobbin holds, and how that is known."""
    surer = "weigh a full bobbin, and enter " + _typed(answer, "bobbins", "capacity_g")
    return of_key(answer, "bobbins", "capacity_g", "what a bobbin holds", surer)


def plying_bobbin(answer: Answer) -> Source:
    """Return what a plying bobbin holds, and how that is known."""
    surer = "weigh a full one, and enter " + _typed(answer, "bobbins", "plying_capacity_g")
    return of_key(answer, "bobbins", "plying_capacity_g", "what a plying bobbin holds", surer)


def tare(answer: Answer, key: str = "tare_g") -> Source:
    """Return what an empty bobbin weighs, and how that is known.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    key : str
        tare_g or plying_tare_g.
    """
    surer = "weigh each empty bobbin, and enter " + _typed(answer, "bobbins", key)
    return of_key(answer, "bobbins", key, "weight of the empty bobbin", surer)


def winding(answer: Answer) -> Source:
    """Return how bobbins are wound off, which the spinner decides."""
    return of_key(answer, "plying", "wound_off", "winding before plying")


def colours(answer: Answer) -> Source:
    """Return how the colours of the lots are known."""
    unsure = [lot.name for lot in answer.plan.lots if lot.colour_unsure]
    by = "some of them unsure" if unsure else ""
    surer = "photograph the dry fibre by daylight beside something of known colour"
    return Source("colours of the lots", "given", by, surer, PHOTOGRAPHS)


def unlike(sources: Iterable[Source]) -> tuple[Source, ...]:
    """Return sources without those that are told twice."""
    return tuple(dict.fromkeys(sources))
