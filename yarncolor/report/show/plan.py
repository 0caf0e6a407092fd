"""A plan as a notebook shows it: strip, stash, batts, weigh-out, the yarn in words, advice."""

from collections.abc import Iterator
from functools import reduce
from itertools import compress

from yarncolor.answers.answer import Answer
from yarncolor.answers.fibre import used_of_lots_g
from yarncolor.answers.weigh_out import SingleWeighOut
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.strip import strip_png
from yarncolor.report.advice import advice_on, no_advice
from yarncolor.report.card.stash import shared_words, stash
from yarncolor.report.short_words import short_notes
from yarncolor.report.show.asked import asked_together, at_heads
from yarncolor.report.show.fragment import Fragment, Picture, below, sentences, table, with_why
from yarncolor.report.show.markup import (
    Cell,
    Html,
    items,
    joined,
    on_colour,
    paragraphs,
    table_html,
)
from yarncolor.report.strip_words import strips_told
from yarncolor.report.summary import weigh_out_text
from yarncolor.report.ways import Way
from yarncolor.report.weigh_out_words import (
    batt_words,
    carded_colours,
    drafted_words,
    heap_words,
    lost_on_the_way,
)
from yarncolor.report.wheel_words import row_and_stripe_words
from yarncolor.report.why.advice import advice_seen
from yarncolor.report.why.colours import doubt_reasons
from yarncolor.report.why.reason import NOT_ASKED
from yarncolor.report.why.reckoned_colours import reckoned_seen
from yarncolor.report.why.seen import seen_in
from yarncolor.report.why.stash import batts_whys, stash_whys
from yarncolor.report.why.weighing import weighing_reasons
from yarncolor.report.why.wheel import weigh_out_whys
from yarncolor.report.why.yarn_sentences import yarn_seen
from yarncolor.report.yarn_lines import yarn_told

_NEW_REPEAT = "border-top:2px solid currentColor;"
_FLOW = "display:flex;flex-wrap:wrap;gap:1.5em;align-items:flex-start"


def show_strip(answer: Answer, width_px: int = 1200, height_px: int = 360) -> Picture:
    """Return the overview strip for a notebook.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_px, height_px : int
        Size of the picture.
    """
    return Picture(strip_png(answer, width_px, height_px), strip_alt(answer), width_px)


def show_stash(answer: Answer, explained: bool = False) -> Fragment:
    """Return the lots for a notebook: name on its colour, grams, how it is divided, notes.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    used, divided = used_of_lots_g(answer), stash(answer.as_planned)
    short, rows, lines = short_notes(answer.layout), [], []
    for at, lot in enumerate(answer.plan.lots):
        reserve = answer.say.mass(lot.reserve_g) if lot.reserve_g else ""
        masses = (
            answer.say.mass(lot.mass_g),
            reserve,
            answer.say.mass(used[at]),
        )
        note = "; ".join(filter(None, (short.get(at, ""), lot.note)))
        texts = (shared_words(divided[at]), note)
        rows.append([_chip(answer, at), *map(_number, masses), *map(_text, texts)])
        lines.append("  ".join((lot.name, *filter(None, (*masses, *texts)))))
    head = ("lot", answer.say.mass.plural, "kept back", "used", "divide", "note")
    is_told = [any(row[column].text for row in rows) for column in range(len(head))]
    shown = [list(compress(row, is_told)) for row in rows]
    whys = stash_whys(answer) if explained else NOT_ASKED
    told = table_html(compress(at_heads(head, whys), is_told), shown, "the stash")
    colours = asked_together(reckoned_seen(answer), "reckoned colours") if explained else ""
    return Fragment(joined((told, colours)), "\n".join(lines))


def show_batts(answer: Answer, explained: bool = False) -> Fragment:
    """Return what is carded together first, or drafted side by side; empty where nothing is.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    rows, drafted = batt_words(answer), drafted_words(answer)
    whys = [batts_whys(answer, one) if explained else NOT_ASKED for one in (False, True)]
    told = []
    if rows:
        head = ("batt", "of", "its colour")
        told.append(table("to card together first", head, rows, whys[0]))
        told.append(_carded(answer, explained))
    if drafted:
        caption = "to draft together, held side by side"
        told.append(table(caption, ("lot", "of"), drafted, whys[1]))
    return reduce(below, told) if told else Fragment("", "")


def _carded(answer: Answer, explained: bool) -> Fragment:
    """Return how near carded colours may be expected; nothing where they are as their lots."""
    colours = carded_colours(answer)
    told = sentences("" if colours is None else str(colours))
    if colours is None or not explained:
        return told
    seen = seen_in([colours], doubt_reasons(answer))
    return with_why(told, seen, "carded colours", answer.say)


def show_yarn(answer: Answer, explained: bool = False) -> Fragment:
    """Return the yarn in a few sentences for a notebook.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    told = list(yarn_told(answer))
    words = sentences(*map(str, told))
    return with_why(words, yarn_seen(answer, told), "the yarn", answer.say) if explained else words


def show_advice(answer: Answer, explained: bool = False) -> Fragment:
    """Return the advice for a notebook, worst first; each way to mend something on its line.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    advice = advice_on(answer)
    if not advice:
        return sentences(no_advice(answer))
    each = items(joined((item.lead, _ways(item.ways))) for item in advice)
    told = Fragment(Html("<ol>{}</ol>").format(each), "\n".join(item.text for item in advice))
    seen = advice_seen(answer, advice) if explained else ()
    return with_why(told, seen, "what to know", answer.say)


def show_weigh_out(answer: Answer, explained: bool = False) -> Fragment:
    """Return the order for each bobbin for a notebook: chip, name, grams, words, running total.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    explained : bool
        Whether figures answer why.
    """
    whys = weigh_out_whys(answer) if explained else NOT_ASKED
    head, singles = ("lot", "weigh", "by hand", "on bobbin"), answer.weigh_out
    tables = [
        table_html(
            at_heads(head, whys),
            _rows(answer, single),
            f"bobbin {single.ply + 1} of {len(singles)}, in spinning order",
        )
        for single in singles
    ]
    flow = Html('<div style="{}">{}</div>').format(_FLOW, joined(tables))
    return Fragment(joined((_before_it(answer, explained), flow)), weigh_out_text(answer))


def _before_it(answer: Answer, explained: bool) -> Html:
    """Return what is said before the weigh-out: strips of a braid, and what is lost."""
    told = [*strips_told(answer), *lost_on_the_way(answer)]
    words = paragraphs(map(str, told))
    if not explained:
        return words
    seen = seen_in(told, weighing_reasons(answer))
    return joined((words, asked_together(seen, "before the wheel", answer.say)))


def _rows(answer: Answer, single: SingleWeighOut) -> Iterator[list[Cell]]:
    step, unit = answer.resolved.step_g, answer.say.mass.unit
    for row in single.rows:
        css = _NEW_REPEAT if row.begins_repeat else ""
        weigh_g = answer.put_g[row.at] if row.weigh_g is None else row.weigh_g
        weigh = "heap" if row.from_heap else f"{answer.say.on_scale(weigh_g, step)} {unit}"
        words = row_and_stripe_words(answer, row)
        so_far = f"{answer.say.on_scale(row.on_bobbin_g, step)} {unit}"
        cells = (_number(weigh, css), _text(words, css), _number(so_far, css))
        yield [_chip(answer, row.lot, css), *cells]
    for heap in single.heaps:
        weigh = "" if heap.is_pinch else f"{answer.say.on_scale(heap.weigh_g, step)} {unit}"
        words = f"heap: {heap_words(heap)}"
        yield [_chip(answer, heap.lot), _number(weigh), _text(words), _number("")]


def _ways(ways: tuple[Way, ...]) -> Html:
    each = Html("<b>{}</b>: {}")
    listed = items(each.format(way.choice, way.cost) for way in ways)
    return Html('<ol type="a">{}</ol>').format(listed) if ways else Html("")


def _chip(answer: Answer, lot: int, css: str = "") -> Cell:
    look = f"{css}{on_colour(answer.palette.srgb[lot])};padding:0 .5em;text-align:left"
    return Cell(answer.plan.names[lot], look)


def _text(text: str, css: str = "") -> Cell:
    return Cell(text, f"{css}padding:0 .5em;text-align:left")


def _number(text: str, css: str = "") -> Cell:
    """Return a cell of a column of numbers; one that is empty has nothing to line up."""
    look = f"{css}padding:0 .5em;white-space:nowrap;text-align:right"
    return Cell(text, look) if text else _text(text, css)
