"""What was decided at the wheel, as the phone shows it: other grams, rows not spun, more pieces."""

from collections.abc import Iterator

from yarncolor.answers.answer import Answer
from yarncolor.answers.weigh_out import Row
from yarncolor.layout.asked import pending
from yarncolor.plan import Plan, ToSpin
from yarncolor.report.weigh_out_words import hand_words
from yarncolor.report.yarn_as_dict import Json


def as_they_stand(answer: Answer, k: int, rows: list[Json]) -> list[Json]:
    """Return the rows of a ply's page: left out, or with what was decided in place of the plan's.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        Ply, from 0.
    rows : list of dict
        As the plan has them where nothing is spun.
    """
    wheel = answer.layout.wheel
    if wheel is None:
        return rows
    own = wheel.planned.of_ply(k)
    left_out, wanted_g = wheel.left_out[own], wheel.wanted_g[own]
    rows = [{**row, "out": True} if out else row for row, out in zip(rows, left_out, strict=True)]
    if wheel.asked is None:
        return rows
    there = {row.number: row for row in answer.weigh_out[k].rows}
    is_other = wanted_g != wheel.planned.mass_g[own]
    is_other[wheel.highest_row(k) :] = True
    return [
        _decided(answer, k, row, there.get(number), float(wanted_g[number - 1]))
        if is_other[number - 1] and not left_out[number - 1]
        else row
        for number, row in enumerate(rows, 1)
    ]


def _decided(answer: Answer, k: int, row: Json, there: Row | None, wanted_g: float) -> Json:
    """Return a row with what was decided of it; off where it is not to be spun."""
    base = {key: value for key, value in row.items() if key not in ("heap", "piece")}
    if there is None:
        return {**base, "off": True}
    if there.is_spun:
        return {**base, "put_g": wanted_g, "gain_g": _gain_g(answer, k, wanted_g)}
    if there.from_heap is not None:
        return row
    put_g = float(answer.put_g[there.at])
    return {
        **base,
        "weigh": answer.say.on_scale(put_g, answer.resolved.step_g),
        "words": hand_words(there.by_hand),
        "put_g": put_g,
        "gain_g": _gain_g(answer, k, put_g),
    }


def _gain_g(answer: Answer, k: int, put_g: float) -> float:
    """Return what comes onto the bobbin of ply k with grams that leave the scale for a piece."""
    return float(put_g * (1 - answer.resolved.spin_loss) / answer.resolved.yarn.strands[k])


def pieces_beside(answer: Answer, k: int) -> Iterator[Json]:
    """Yield the pieces that were decided beside the rows of a ply, those that are spun too.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        Ply, from 0.
    """
    plan, wheel = answer.plan, answer.layout.wheel
    waiting = [] if wheel is None else pending(wheel, plan)
    to_spin = [row for row in answer.weigh_out[k].rows if not row.number and not row.is_spun]
    rows = iter(to_spin)
    for number, one in decided_beside(plan, k):
        row = next(rows, None) if number in waiting else None
        put_g = (one.mass_g or 0.0) if row is None else float(answer.put_g[row.at])
        weigh = answer.say.on_scale(put_g, answer.resolved.step_g)
        yield {
            "lot": plan.names.index(one.lot or ""),
            "after": one.after_pieces or 0,
            "weigh": weigh,
            "mass_g": answer.say.mass.meant(weigh),
            "gain_g": _gain_g(answer, k, put_g),
        }


def decided_beside(plan: Plan, k: int) -> list[tuple[int, ToSpin]]:
    """Return what was decided beside the rows of a ply, each with which of all decisions it is.

    Parameters
    ----------
    plan : Plan
        Says what was decided.
    k : int
        Ply, from 0.
    """
    return [
        (number, one)
        for number, one in enumerate(plan.to_spin)
        if one.row is None and one.ply == k + 1 and one.lot is not None and one.mass_g
    ]
