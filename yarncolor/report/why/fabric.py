"""Why a knitted piece takes what it takes, and is as large as it is."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.knitted_piece import KnittedPiece
from yarncolor.layout.layout import used_g
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Equation, Working
from yarncolor.report.why.reason import Reason, Source, Whys, whys_of
from yarncolor.yarn.knitted_shape import edge_of_stitch_m
from yarncolor.yarn.knitted_size import increases_per_row

_GROWS = "as many rows as the yarn is enough for, each wider than the one before, edges included"
_TIPS = (
    "twice the root of two squares, added: of how high the rows are together, and of a quarter of "
    "how wide the last one is"
)
_GIVE_OR_TAKE = (
    "by a weighed swatch little is left open; by the gauge alone, how tight hands knit; by a guess "
    "at the gauge, most"
)
_ROWS = "how much yarn a stitch takes, and how many stitches a row has"


def fabric_whys(answer: Answer, knit: KnittedPiece) -> Whys:
    """Return the reasons for what a piece takes, and for how many rows there is yarn.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    knit : KnittedPiece
        Its piece.
    """
    rows = {
        **_stitch(answer, knit),
        **_takes(answer, knit),
        **_size(answer, knit),
    }
    return whys_of(answer, rows=rows)


def piece_reasons(answer: Answer, knit: KnittedPiece) -> dict[str, Reason]:
    """Return the reasons for what sentences say of a piece, by what a figure of them is of.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    knit : KnittedPiece
        Its piece.
    """
    takes, size = _takes(answer, knit), _size(answer, knit)
    rows, stitches = (sources.size(answer, key, key) for key in ("rows", "stitches"))
    known = (sources.gauge(answer), rows, stitches)
    named = {
        "needs": takes.get(f"washed yarn that {knit.rows} rows take"),
        "needs_plied": takes.get("the same as plied"),
        "rows_possible": takes["rows it gives"],
        "wide": size.get("how wide"),
        "high": size.get("how high"),
        "tip_to_tip": Reason("from tip to tip", known, (), _TIPS),
        "give_or_take": Reason("give or take", _piece_sources(answer)[:2], (), _GIVE_OR_TAKE),
        "rows": Reason("rows", (rows,)),
        "stitches": Reason("stitches cast on", (stitches,)),
    }
    return {of: reason for of, reason in named.items() if reason is not None}


def fibre_whys(answer: Answer, knit: KnittedPiece) -> Whys:
    """Return the reasons for the fibre that a piece takes.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    knit : KnittedPiece
        Its piece; it has rows.
    """
    used, lots = used_g(answer.layout), answer.plan.lots
    lot = int(used.argmax())
    values = {
        "needs_plied_m": knit.all_plied_m or 0.0,
        "yarn_m": answer.lengths.plied_m,
        "used_g": float(used[lot]),
        "card_loss": answer.resolved.card_loss,
    }
    takes = (*_piece_sources(answer), sources.masses(answer), sources.card_loss(answer))
    card = Working(by.FIBRE, values, lots[lot].name)
    there = {"there_g": lots[lot].mass_g - lots[lot].reserve_g}
    lacks = Working(by.LACKS, {"needed_g": card.result, **there}, lots[lot].name)
    return whys_of(
        answer,
        heads={
            "to card for it": Reason("to card", takes, (card,)),
            "there is": Reason("there is", (sources.masses(answer),), (), "less what is kept back"),
            "missing": Reason(
                "missing", takes, (lacks,), "nothing is missing where that is below nought"
            ),
        },
    )


def stripes_whys(answer: Answer) -> Whys:
    """Return the reasons for the rows at which sections of the yarn lie in the knitting."""
    rests_on = (sources.gauge(answer), sources.grist(answer), sources.length_lost(answer))
    method = "the length of each section, row by row, over what a row takes of yarn"
    why = Reason("rows", (*rests_on, sources.order(answer)), (), method)
    return whys_of(answer, heads={"from row": why, "rows": why})


def _stitch(answer: Answer, knit: KnittedPiece) -> dict[str, Reason]:
    fabric, loop = answer.plan.fabric, (sources.stitch(answer), sources.gauge(answer))
    row = {"stitches": knit.stitches, "loop_cm": knit.loop_cm}
    tight = {"linear_density_tex": answer.layout.finished_tex, "loop_length_cm": knit.loop_cm}
    density = {"stitches_per_10cm": knit.gauge_stitches, "rows_per_10cm": knit.gauge_rows}
    stitch = Working(by.LOOP, density)
    if fabric.swatch is not None:
        count = fabric.swatch.stitches * fabric.swatch.rows
        swatch = {"mass_g": fabric.swatch.mass_g, "linear_density_tex": _tex(answer)}
        stitch = Working(by.LOOP_OF_SWATCH, {**swatch, "stitches": count})
    cast_on = sources.size(answer, "stitches", "stitches cast on")
    guess = Working(by.USUAL_GAUGE, {"finished_tex": _tex(answer)})
    gauge = Reason("stitches", (sources.gauge(answer), sources.grist(answer)), (guess,))
    return {
        "yarn in a stitch": Reason("yarn in a stitch", loop, (stitch,)),
        "one row of the cast-on": Reason("one row", (cast_on, *loop), (Working(by.ROW, row),)),
        "how tight, in numbers (tightness factor)": Reason(
            "tightness", (sources.grist(answer), *loop), (Working(by.TIGHTNESS, tight),)
        ),
        f"stitches {answer.say.gauge.unit}": gauge,
    }


def _tex(answer: Answer) -> float:
    """Return the tex of the finished yarn as planned, by which stitches and gauge go."""
    return answer.resolved.yarn.finished_tex


def _takes(answer: Answer, knit: KnittedPiece) -> dict[str, Reason]:
    ratio = {"finishing_ratio": answer.resolved.yarn.finishing_ratio}
    plied = {"yarn_m": knit.has_m / ratio["finishing_ratio"]}
    yarn = (sources.grist(answer), sources.masses(answer), sources.wash(answer))
    takes = _piece_sources(answer)
    reasons = {
        "washed yarn there is": Reason(
            "washed yarn", yarn, (Working(by.WASHED, {**plied, **ratio}),), _shortest(knit)
        ),
        "rows it gives": _rows(knit, (*takes, *yarn)),
    }
    if knit.needs_m is not None and knit.rows is not None:
        needs, both = _needs(answer, knit), {"needs_m": knit.needs_m, **ratio}
        reasons[f"washed yarn that {knit.rows} rows take"] = Reason(
            "washed yarn", takes, (needs,), f"give or take {knit.band:.0%}"
        )
        reasons["the same as plied"] = Reason(
            "as plied", (*takes, sources.wash(answer)), (Working(by.AS_PLIED, both),)
        )
    return reasons


def _shortest(knit: KnittedPiece) -> str:
    return f"of the shortest of {knit.copies}" if knit.copies > 1 else ""


def _piece_sources(answer: Answer) -> tuple[Source, ...]:
    rows = sources.size(answer, "rows", "rows")
    return (sources.stitch(answer), sources.gauge(answer), rows)


def _rows(knit: KnittedPiece, rests_on: tuple[Source, ...]) -> Reason:
    if knit.kind == "triangle":
        return Reason("rows", rests_on, (), _GROWS)
    edge = {"edge_m": edge_of_stitch_m(knit.gauge_stitches), "stitches": knit.stitches}
    values = {"has_m": knit.has_m, "row_m": knit.row_m, **edge}
    is_enough = by.ROWS.of(**values) >= 0
    return Reason("rows", rests_on, (Working(by.ROWS, values),) if is_enough else (), _ROWS)


def _needs(answer: Answer, knit: KnittedPiece) -> Working:
    rows = {"rows": knit.rows or 0, "stitches": knit.stitches}
    edge = {"edge_m": edge_of_stitch_m(knit.gauge_stitches)}
    if knit.kind != "triangle":
        return Working(by.NEEDS, {**rows, **edge, "row_m": knit.row_m})
    growth = increases_per_row(answer.plan.fabric)
    return Working(by.NEEDS_GROWING, {**rows, **edge, "growth": growth, "loop_cm": knit.loop_cm})


def _size(answer: Answer, knit: KnittedPiece) -> dict[str, Reason]:
    """Return why it is so wide and so high, of a piece whose rows are known."""
    gauge, stitches = sources.gauge(answer), sources.size(answer, "stitches", "stitches cast on")
    rows, widest = sources.size(answer, "rows", "rows"), knit.last_stitches or knit.stitches
    told: dict[str, tuple[Source, Equation, dict[str, float]]] = {}
    if knit.width_cm is not None:
        wide = {"stitches": widest, "stitches_per_10cm": knit.gauge_stitches}
        told["how wide"] = (stitches, by.WIDE, wide)
    if knit.height_cm is not None and knit.rows is not None:
        told["how high"] = (rows, by.HIGH, {"rows": knit.rows, "rows_per_10cm": knit.gauge_rows})
    return {
        words: Reason(words, (gauge, known), (Working(equation, values),))
        for words, (known, equation, values) in told.items()
    }
