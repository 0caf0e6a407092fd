"""A knitted piece, as a notebook shows it: what it takes, what the yarn can be knitted into."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import metres_hang
from yarncolor.answers.knitted_piece import KnittedPiece, to_card_g
from yarncolor.measures import Measures
from yarncolor.report.show.fragment import Fragment, below, sentences, table
from yarncolor.report.why.fabric import fabric_whys, fibre_whys
from yarncolor.report.why.reason import NOT_ASKED, Whys


def show_fabric(answer: Answer, explained: bool = False) -> Fragment:
    """Return what a knitted piece takes of each lot, and what this yarn can be knitted into.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    knit = answer.piece
    if knit is None:
        text = "Say how wide it is to be, or how many stitches you cast on, to see what it takes."
        return sentences(text)
    if knit.all_plied_m is None:
        return _facts(answer, knit, explained)
    whys = fibre_whys(answer, knit) if explained else NOT_ASKED
    return below(_facts(answer, knit, explained), _fibre(answer, knit.all_plied_m, whys))


def _facts(answer: Answer, knit: KnittedPiece, explained: bool) -> Fragment:
    rows = [
        ("yarn in a stitch", answer.say.thickness(knit.loop_cm * 10)),
        ("one row of the cast-on", answer.say.length(knit.row_m, 2)),
        ("how tight, in numbers (tightness factor)", f"{knit.tightness:.1f} √tex/cm"),
        ("washed yarn there is", answer.say.long(knit.has_m)),
        ("rows it gives", f"{knit.rows_possible}"),
    ]
    if knit.gauge_is_guess:
        gauge = answer.say.gauge
        told = f"{gauge.number(knit.gauge_stitches, 0)}, a guess by the yarn’s thickness until you "
        rows.insert(0, (f"stitches {gauge.unit}", f"{told}knit a swatch"))
    if knit.needs_m is not None and knit.needs_plied_m is not None:
        rows.append((f"washed yarn that {knit.rows} rows take", answer.say.long(knit.needs_m)))
        rows.append(("the same as plied", answer.say.long(knit.needs_plied_m)))
    whys = fabric_whys(answer, knit) if explained else NOT_ASKED
    return table(f"the fabric{metres_hang(answer)}", ("", ""), rows, whys)


def _fibre(answer: Answer, needs_plied_m: float, whys: Whys) -> Fragment:
    needed = to_card_g(answer.layout, needs_plied_m)
    have = [lot.mass_g - lot.reserve_g for lot in answer.plan.lots]
    lots = [
        (
            lot.name,
            answer.say.mass(need),
            answer.say.mass(there),
            _missing(need, there, answer.say),
        )
        for lot, need, there in zip(answer.plan.lots, needed.tolist(), have, strict=True)
        if need
    ]
    head = ("lot", "to card for it", "there is", "missing")
    return table("fibre for the piece", head, lots, whys)


def _missing(need_g: float, there_g: float, say: Measures) -> str:
    return say.mass(need_g - there_g) if need_g > there_g else ""
