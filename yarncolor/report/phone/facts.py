"""What the phone is told of a plan: rows with their words, weights to expect, changes in plying."""

from collections.abc import Iterator
from itertools import pairwise

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import if_single_is
from yarncolor.answers.weigh_out import Heap, Row
from yarncolor.cautions import WHEEL
from yarncolor.defaults import plying_tare_g
from yarncolor.layout.rows_mark import rows_mark
from yarncolor.measures import Measure, Measures
from yarncolor.phrases import title_of
from yarncolor.plan import Plan
from yarncolor.report.advice import advice_on
from yarncolor.report.card.bobbins import Bobbin, Group, bobbins
from yarncolor.report.card.rows import Row as CardRow
from yarncolor.report.card.weights import Weight, bobbins_of
from yarncolor.report.phone.already import already_plied, already_spun
from yarncolor.report.phone.changes import changes
from yarncolor.report.phone.decided import as_they_stand, pieces_beside
from yarncolor.report.phone.ran_out import ran_out_facts, tex_on_plies
from yarncolor.report.phone.typed import typed_keys, units_told
from yarncolor.report.strip_words import strips_of_ply
from yarncolor.report.weigh_out_words import thing_of_ply
from yarncolor.report.yarn_as_dict import Json

_BEFORE_PLYING = ("mixed_winding", "few_bobbins", "runs_out")


def facts(answer: Answer) -> Json:
    """Return all that the phone's page shows of a plan, as data for JSON.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    plan, planned = answer.plan, answer.as_planned
    pages = bobbins(planned)
    tex = tex_on_plies(answer)
    plies = [
        {**_ply(answer, planned, page, len(pages)), "tex": each}
        for page, each in zip(pages, tex, strict=True)
    ]
    return {
        "title": title_of(plan),
        "caution": WHEEL,
        "kept_as": plan.title or ", ".join(plan.names),
        "rows_mark": rows_mark(answer.layout.planned, plan.names),
        "decimals": answer.say.decimals(answer.resolved.step_g),
        "measures": _measures(answer.say),
        "units": units_told(),
        "typed_keys": typed_keys(),
        "spin_loss": answer.resolved.spin_loss,
        "lots": [
            {"name": name, "colour": colour}
            for name, colour in zip(plan.names, answer.palette.srgb, strict=True)
        ],
        "plies": plies,
        "plying": _plying(answer, pages),
        "spun": already_spun(plan, [ply["rows"] for ply in plies]),
        "plied": already_plied(answer),
        "ran_out": ran_out_facts(answer),
    }


def _measures(say: Measures) -> Json:
    """Return what the page says and reads numbers in: only it knows what is typed."""
    return {
        "mass": {**_measure(say.mass), "plural": say.mass.plural},
        "length": {**_measure(say.length), "plural": say.length.plural},
        "short": _measure(say.short),
        "grist": _measure(say.grist),
    }


def _measure(one: Measure) -> Json:
    return {"unit": one.unit, "size": one.size, "finer": one.finer}


def _ply(now: Answer, answer: Answer, page: Bobbin, of: int) -> Json:
    k = page.number - 1
    thing = thing_of_ply(answer)
    tares_g = [one.tare_g for one in bobbins_of(answer, k)]
    return {
        "name": f"{thing} {page.number} of {of}" if of > 1 else "The one bobbin",
        "short": f"{thing.lower()} {page.number}" if of > 1 else "the single",
        "strands": page.strands,
        "spun": page.direction,
        "tares_g": tares_g,
        "tares": [None if tare_g is None else answer.say.tare(tare_g) for tare_g in tares_g],
        "heaps": [[heap.lot, heap.weigh, heap.words] for heap in page.heaps],
        "rows": as_they_stand(now, k, list(_rows(answer, page))),
        "beside": list(pieces_beside(now, k)),
    }


def _rows(answer: Answer, page: Bobbin) -> Iterator[Json]:
    weighed = answer.weigh_out[page.number - 1]
    gains, strips = _gains(answer, page.number - 1), strips_of_ply(answer, page.number - 1)
    for group in page.groups:
        for shown in group.rows:
            at = shown.at - 1
            row, full = weighed.rows[at], group.full.get(shown.at, [])
            yield {
                "lot": row.lot,
                "weigh": shown.weigh,
                "words": shown.words,
                **gains[at],
                **_heap(weighed.heaps, row),
                **_asides(page, group, shown, strips),
                **({"full": [_full(each, answer.say) for each in full]} if full else {}),
            }


def _heap(heaps: tuple[Heap, ...], row: Row) -> Json:
    if row.from_heap is None:
        return {}
    return {"heap": heaps.index(row.from_heap.heap), "piece": row.from_heap.piece}


def _asides(page: Bobbin, group: Group, row: CardRow, strips: str) -> Json:
    """Return what is said before and after a row, where there is something to say.

    How strips of a braid are spun is said before the first.
    """
    is_first, is_last = row is group.rows[0], row is group.rows[-1]
    left_out = page.left_out.striptags()
    before = left_out if is_first and group.left_out == "before" else ""
    said = {
        "heading": group.heading if is_first else "",
        "before": before or (strips if is_first and group is page.groups[0] else ""),
        "after": left_out if is_last and group.left_out == "after" else "",
        "meant": row.meant.striptags(),
        "stop": is_last,
    }
    return {word: value for word, value in said.items() if value}


def _full(weight: Weight, say: Measures) -> str:
    """Return when a bobbin is full, in words."""
    unit = say.mass.unit
    where = " within this piece" if weight.within else ""
    gross = f", {weight.gross} {unit} with the bobbin" if weight.gross else ""
    return f"Bobbin {weight.bobbin} is full{where}, {weight.net} {unit}{gross}: take the next."


def _gains(answer: Answer, k: int) -> list[Json]:
    """Return of each portion of ply k what leaves the scale, comes onto the bobbin, and which."""
    own, on = answer.layout.portions.of_ply(k), answer.on_bobbins
    spun_g = [0.0, *on.spun_g[own].tolist()]
    order = [1, *(bobbin.order for bobbin in on.in_use[own])]
    after_g, put_g = on.after_each_g[own].tolist(), answer.put_g[own].tolist()
    return [
        {
            "put_g": put,
            "gain_g": end - begin if now == before else after,
            "bobbin": now,
        }
        for put, (begin, end), (before, now), after in zip(
            put_g, pairwise(spun_g), pairwise(order), after_g, strict=True
        )
    ]


def _plying(answer: Answer, pages: list[Bobbin]) -> Json:
    told = [item.text for item in advice_on(answer) if item.kind in _BEFORE_PLYING]
    return {
        "yarn_m": answer.layout.stretches.yarn_m,
        "tex": answer.layout.yarn_tex,
        "tare_g": plying_tare_g(answer.plan),
        "turn_m": _turn_m(answer.plan),
        "strands": answer.layout.stretches.lot.shape[1],
        "hangs_on": if_single_is(answer),
        "before": told,
        "off": [
            {"winding": page.winding, "first": page.off_first, "last": page.off_last}
            for page in pages
        ],
        "changes": changes(answer),
    }


def _turn_m(plan: Plan) -> float | None:
    """Return how long a turn is by which the yarn is counted; None where that is not said."""
    said = (plan.plied, plan.made)
    return next((one.turn_m for one in said if one is not None and one.turn_m), None)
