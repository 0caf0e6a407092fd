"""How far the spinning and the plying have come, in a spinner's words."""

from collections.abc import Iterator
from math import isnan

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.progress import LIKELY, SURE, PlyProgress, Progress, RowReached, progress
from yarncolor.answers.weigh_out import Row
from yarncolor.layout.pieces_changed import tex_to_spin
from yarncolor.layout.portions import row_numbers
from yarncolor.measures import Measure
from yarncolor.phrases import counted, ended, hours_text, join_first, percent
from yarncolor.report.plying_words import ended_lines, where_text
from yarncolor.report.weigh_out_words import divided_words

MOST_NAMED = 6
_SEEN_GRIST = 0.005


def wheel_lines(answer: Answer) -> Iterator[str]:
    """Yield what is spun and what is next, bobbin by bobbin, and where the plying is."""
    far = progress(answer)
    if far is not None:
        yield spun_so_far(far, answer.say.mass)
        for one in far.plies:
            yield f"  Ply {one.ply + 1}: {ply_stands(answer, one)}"
    if answer.plan.plied is not None:
        yield where_text(answer)
        yield from ended_lines(answer)


def spun_so_far(far: Progress, mass: Measure) -> str:
    """Return how far a plan has come.

    Parameters
    ----------
    far : Progress
        What is spun, and what is left.
    mass : Measure
        What it is weighed in.
    """
    left = "" if not far.left_h else f", about {hours_text(far.left_h)} to go"
    return f"Spun so far: {percent(far.share)} of the {mass.plural}{left}."


def spun_grist(answer: Answer) -> str:
    """Return how thick each ply was spun, as far as it was measured; nothing where none was."""
    wheel, strands = answer.layout.wheel, answer.resolved.yarn.strands
    if wheel is None:
        return ""
    return "; ".join(
        f"ply {ply + 1} {answer.say.single(one.measured_tex / strands[ply])}, by "
        f"{counted(one.count, 'measure')}{'' if one.holds else ', too few to go by yet'}"
        for ply, one in enumerate(wheel.grist)
        if one.measured_tex is not None
    )


def spun_words(answer: Answer, row: Row) -> str:
    """Return what is said of a row that lies on the bobbin; nothing of one that does not.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    row : Row
        Of its weigh-out.
    """
    wheel = answer.layout.wheel
    if wheel is None or not wheel.spun[row.at]:
        return ""
    parts, instead = ["spun"], instead_of(answer, row.at)
    if not row.number:
        parts.append("a piece too many")
    elif instead:
        parts.append(f"in the place of {instead}")
    if wheel.is_measured[row.at]:
        parts.append(f"{answer.say.length(row.end_m - row.start_m)} measured")
    return ", ".join(parts)


def instead_of(answer: Answer, at: int) -> str:
    """Return the lot in whose place a piece of another was spun; nothing where it is its row's.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    at : int
        Index into its portions.
    """
    row, laid = answer.layout.of_planned[at], answer.layout
    if row < 0 or laid.planned.lot[row] == laid.portions.lot[at]:
        return ""
    name: str = answer.plan.names[laid.planned.lot[row]]
    return name


def grist_words(answer: Answer, row: Row) -> str:
    """Return how fine a row is to be spun where it is not as the rest of its ply, after a comma.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    row : Row
        Of its weigh-out.
    """
    wheel = answer.layout.wheel
    if wheel is None or wheel.spun[row.at]:
        return ""
    ply, tex = int(wheel.pieces.ply[row.at]), float(wheel.pieces.tex[row.at])
    finer = float(tex_to_spin(wheel)[ply]) / tex
    if abs(finer - 1) < _SEEN_GRIST:
        return ""
    how = "finer" if finer > 1 else "thicker"
    return f", {how}: {answer.say.single(tex / answer.resolved.yarn.strands[ply])}"


def row_words(answer: Answer, row: Row) -> str:
    """Return what lies of a row on the bobbin, or how it comes from its lot and how fine.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    row : Row
        Of its weigh-out.
    """
    return spun_words(answer, row) or f"{divided_words(row)}{grist_words(answer, row)}"


def row_and_stripe_words(answer: Answer, row: Row) -> str:
    """Return what is said of a row, and which stripe of a knitted piece it is.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    row : Row
        Of its weigh-out.
    """
    told = (row_words(answer, row), stripe_words(answer, row.at))
    return "; ".join(filter(None, told))


def stripe_words(answer: Answer, at: int) -> str:
    """Return which stripe of the piece a portion is, and how high; nothing of another scheme.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    at : int
        Index into the plan's portions.
    """
    laid, number = answer.resolved.scheme_input.striped, int(answer.layout.portions.place[at])
    if laid is None or not number:
        return ""
    word = "round" if answer.plan.fabric.kind == "round" else "row"
    return f"stripe {number}, {counted(int(laid.rows[number - 1]), word)}"


def left_out_words(answer: Answer, ply: int) -> str:
    """Return which rows of a ply were left out; nothing where none was.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    ply : int
        From 0.
    """
    wheel = answer.layout.wheel
    if wheel is None:
        return ""
    planned, names = wheel.planned, answer.plan.names
    rows = [
        f"row {row_numbers(planned)[at]} "
        f"({answer.say.mass(planned.mass_g[at])} of {names[planned.lot[at]]})"
        for at in np.flatnonzero(wheel.left_out & (planned.ply == ply))
    ]
    return join_first(rows, MOST_NAMED) if rows else ""


def row_reached_words(answer: Answer, reached: RowReached) -> str:
    """Return which row a bobbin's weight tells, and how sure that is.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    reached : RowReached
        The row that weighs most nearly so.
    """
    near = _end_of(answer, reached.at)
    mass = answer.say.mass
    off = f"{mass(abs(reached.off_g))} {'over' if reached.off_g > 0 else 'under'} what it weighs"
    sure = {SURE: "That is sure", LIKELY: "That is likely"}.get(reached.how_sure, "It is open")
    other = "the empty bobbin" if reached.next_at is None else _end_of(answer, reached.next_at)
    return (
        f"You are at {near}: {off} there. {sure}: {other} is {mass(abs(reached.next_off_g))} away."
    )


def _end_of(answer: Answer, portion: int) -> str:
    row, lot = answer.layout.row[portion], answer.layout.portions.lot[portion]
    name = answer.plan.names[lot]
    return f"the end of row {row}, {name}" if row else f"the end of the piece too many, {name}"


def lying_words(answer: Answer, ply: int) -> str:
    """Return how many pieces of a ply lie on its bobbin, their grams by the scale, their metres.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    ply : int
        From 0.
    """
    own = answer.layout.portions.of_ply(ply)
    spun = own.start + np.flatnonzero(~answer.layout.to_spin[own])
    if not len(spun):
        return ""
    put = answer.say.on_scale(float(answer.put_g[spun].sum()), answer.resolved.step_g)
    length_m = float(answer.layout.portions.length_m[spun].sum())
    return (
        f"{counted(len(spun), 'piece')}, {put} {answer.say.mass.unit}, {answer.say.long(length_m)}"
    )


def ply_stands(answer: Answer, one: PlyProgress) -> str:
    """Return what lies on a ply's bobbin, and what is next.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    one : PlyProgress
        Of that ply.
    """
    lies = lying_words(answer, one.ply) or "nothing yet"
    if one.next_at is None:
        return f"{lies}; all spun."
    at, step_g = one.next_at, answer.resolved.step_g
    row, portions = answer.layout.row[at], answer.layout.portions
    weigh = "from its heap"
    if not isnan(portions.weigh_g[at]):
        weigh = f"{answer.say.on_scale(portions.weigh_g[at], step_g)} {answer.say.mass.unit}"
    after = ""
    if one.next_gross_g is not None:
        tare_g = answer.on_bobbins.in_use[at].tare_g or 0.0
        net = answer.say.on_scale(one.next_gross_g - tare_g, step_g)
        gross = f"{answer.say.gross(net, tare_g)} {answer.say.mass.unit}"
        after = f"; after it bobbin and single weigh {gross}"
    what = f"row {row}" if row else "a piece beside the rows"
    name = ended(answer.plan.names[portions.lot[at]])
    return f"{lies}. Next is {what}, {name}, {weigh}{after}."
