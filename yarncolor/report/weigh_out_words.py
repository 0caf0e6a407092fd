"""The weigh-out in words: how hands divide what is weighed, and what is lost on the way."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache

from yarncolor.answers.answer import Answer
from yarncolor.answers.by_hand import (
    ByScale,
    HandDivision,
    Lengthwise,
    OnStrip,
    Rolags,
    ShareOfLot,
)
from yarncolor.answers.fibre import batts
from yarncolor.answers.weigh_out import Heap, Row
from yarncolor.colour.difference import ALIKE_BELOW, CLOSE_BELOW
from yarncolor.colour.palette import blend_doubts
from yarncolor.phrases import FRACTIONS, join_words
from yarncolor.said import Figure, Filling, Said, said

_SEEN_G = 0.1 * (1 - 1e-9)


@lru_cache(maxsize=4096)
def hand_words(division: HandDivision) -> str:
    """Return how hands divide a portion; ``about``, where the scale shows its like unlike."""
    if isinstance(division, ByScale):
        return "needs a scale"
    return f"{'' if division.alike_on_scale else 'about '}{_divided(division)}"


def _divided(division: Rolags | Lengthwise | ShareOfLot | OnStrip) -> str:
    match division:
        case Rolags(count):
            return f"{rolags_amount(count)} rolag{'s' if count > 1 else ''}"
        case Lengthwise(count, of, kind):
            return f"{count} of {of} {kind}s"
        case OnStrip(number, of):
            return f"on strip {number} of {of}" if of > 1 else "on the strip"
        case ShareOfLot(Fraction(numerator=1, denominator=1), of_whole_lot):
            return "all of the lot" if of_whole_lot else "all that is left"
        case ShareOfLot(part, of_whole_lot):
            return f"{_part_words(part)} of {'the lot' if of_whole_lot else 'what is left'}"


def rolags_amount(count: Fraction) -> str:
    """Return how many rolags, as it stands before that word: ``2½``, or ``½ of a``."""
    whole, part = divmod(count, 1)
    return f"{whole}{FRACTIONS.get(part, '')}" if whole else f"{FRACTIONS[part]} of a"


def _part_words(part: Fraction) -> str:
    """Return a part as hands find it: thirds first, then halves of them; ``½ of ⅓``."""
    if part in FRACTIONS:
        return FRACTIONS[part]
    if part.numerator > 1:
        return f"{part.numerator} of {part.denominator} equal pieces"
    first = Fraction(1, 3) if part.denominator % 3 == 0 else Fraction(1, 8)
    return f"{_part_words(part / first)} of {FRACTIONS[first]}"


def heap_words(heap: Heap) -> str:
    """Return how the pieces of a heap are made; a heap that the scale cannot show is a pinch."""
    if heap.is_pinch:
        return "a pinch"
    count = len(heap.mass_g)
    if count == 1:
        return "one piece"
    kind = "equal pieces" if heap.is_equal else "pieces, larger and smaller"
    return f"divide by hand into {count} {kind}"


def piece_words(heap: Heap, piece: int) -> str:
    """Return what part of its heap a piece is.

    Parameters
    ----------
    heap : Heap
        The heap.
    piece : int
        Which of its pieces, from 0.
    """
    if heap.is_equal:
        count = len(heap.mass_g)
        return "all of it" if count == 1 else f"1 of {count} pieces"
    return f"about {heap.mass_g[piece] / heap.mass_g.sum():.0%} of it"


def rest_words(answer: Answer) -> list[str]:
    """Return what stays over of each lot, as the scale shows whole steps only; "" for nothing.

    Less than a tenth of a gram, a few hairs, is not said; of ounces, what would be 0.00 of them.
    """
    told_g = max(_SEEN_G, answer.say.least_g / 2)
    return [answer.say.mass(rest_g) if rest_g > told_g else "" for rest_g in answer.weigh_rest_g]


def rest_in_short(answer: Answer) -> str:
    """Return in one sentence what stays over of all lots; nothing where nothing to speak of."""
    over = [name for rest, name in zip(rest_words(answer), answer.plan.names, strict=True) if rest]
    most = answer.say.mass(answer.weigh_rest_g.max())
    of = f"{most} of {over[0]}" if len(over) == 1 else f"Up to {most} of a lot"
    return f"{of} stays over: the scale cannot show it." if over else ""


def divided_words(row: Row) -> str:
    """Return how a row comes from its lot, or which piece of its heap it is."""
    of = row.from_heap
    return hand_words(row.by_hand) if of is None else piece_words(of.heap, of.piece)


def lost_lines(answer: Answer) -> Iterator[str]:
    """Return what is lost or stays over on the way, beside the grams that are weighed out."""
    yield from map(str, lost_on_the_way(answer))


def lost_on_the_way(answer: Answer) -> Iterator[Said]:
    """Yield the same, its numbers as figures."""
    yield from _stays_over(answer)
    mass, settled = answer.say.mass, answer.resolved
    weighed_g = float(answer.layout.portions.mass_g.sum())
    if settled.card_loss:
        yield said(
            "Before carding {raw}, as {lost} is lost there; what stands below is weighed after it.",
            raw=Figure(mass(weighed_g / (1 - settled.card_loss)), "raw"),
            lost=Figure(f"{settled.card_loss:.1%}", "card_loss"),
        )
    if settled.spin_loss:
        yield said(
            "Weighed out {weighed}, before spinning; {lost} is lost at the wheel, so {spun} come "
            "onto the bobbins.",
            weighed=Figure(mass(weighed_g), "weighed"),
            lost=Figure(f"{settled.spin_loss:.1%}", "spin_loss"),
            spun=Figure(mass(weighed_g * (1 - settled.spin_loss)), "spun"),
        )


def _stays_over(answer: Answer) -> Iterator[Said]:
    over = {at: rest for at, rest in enumerate(rest_words(answer)) if rest}
    if over:
        told = join_words([f"{{rest_{at}}} of {{lot_{at}}}" for at in over])
        slots: dict[str, Filling] = {
            f"rest_{at}": Figure(rest, "rest") for at, rest in over.items()
        }
        slots |= {f"lot_{at}": answer.plan.names[at] for at in over}
        yield Said(f"Weighed in whole steps of the scale, this stays over: {told}.", slots)


def thing_of_ply(answer: Answer) -> str:
    """Return what a ply's list is headed by: its bobbin, or the ply where it fills several."""
    return "Bobbin" if len(answer.bobbins) == len(answer.weigh_out) else "Ply"


def batt_words(answer: Answer) -> list[tuple[str, str, str]]:
    """Return the name of each lot that is carded from others, of what, and how near its colour."""
    names, doubts = answer.plan.names, blend_doubts(answer.plan.lots)
    return [
        (
            names[batt.lot],
            " and ".join(
                f"{answer.say.mass(part.mass_g)} of {names[part.lot]}" for part in batt.parts
            ),
            f"within about {doubts[batt.lot]:.0f}" if doubts[batt.lot] else "as its lot",
        )
        for batt in batts(answer)
        if not batt.is_drafted
    ]


def drafted_words(answer: Answer) -> list[tuple[str, str]]:
    """Return the name of each lot that is drafted from others side by side, and of what."""
    names = answer.plan.names
    return [
        (
            names[one.lot],
            " beside ".join(
                f"{answer.say.mass(part.mass_g)} of {names[part.lot]}" for part in one.parts
            ),
        )
        for one in batts(answer)
        if one.is_drafted
    ]


def carded_colours(answer: Answer) -> Said | None:
    """Return how near carded colours may be expected; None where nothing is carded."""
    most = max(blend_doubts(answer.plan.lots), default=0.0)
    return reckoned_words("what is carded", most) if most else None


def carded_in_short(answer: Answer) -> str:
    """Return the same for paper, without a number; "" where nothing is carded."""
    most = max(blend_doubts(answer.plan.lots), default=0.0)
    off = "clearly" if most > CLOSE_BELOW else "a shade"
    text = f"Carded colours are reckoned, and may come out {off} off: card a little first."
    return text if most else ""


def reckoned_words(carded: str, within: float) -> Said:
    """Return in a sentence how far what is carded may come out from the colour reckoned for it.

    Parameters
    ----------
    carded : str
        What is spoken of.
    within : float
        CIEDE2000 within which it is to be expected.
    """
    return said(
        "Colours of fibre carded together are reckoned: expect {carded} within about {within} of "
        "the colour shown (CIEDE2000, where {alike} passes for alike).",
        carded=carded,
        within=Figure(f"{within:.0f}", "within"),
        alike=Figure(f"{ALIKE_BELOW:g}", "alike"),
    )
