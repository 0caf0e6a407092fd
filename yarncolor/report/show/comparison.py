"""Plans side by side, as a notebook shows them: pictures on one scale, numbers, what differs."""

from collections.abc import Iterable, Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.errors import Fault, PlanError
from yarncolor.phrases import percent
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.side_by_side import read_so, side_by_side
from yarncolor.report.comparison import Comparison, comparison, left_words, lots_words
from yarncolor.report.comparison_text import difference_sentences
from yarncolor.report.sheets import MOST_COMPARED
from yarncolor.report.show.asked import asked_together
from yarncolor.report.show.fragment import Fragment, Picture, small_picture, table
from yarncolor.report.show.markup import Html, items
from yarncolor.report.why.compared import compared_whys, shorter_reason
from yarncolor.report.why.reason import NOT_ASKED, Whys
from yarncolor.report.why.seen import Seen, together

_SHOWN_PX = 1000
_SAME = "These are the same yarn."
_SAME_NUMBERS = "By these numbers they do not differ, only in which colours lie where."


def show_side_by_side(plans: dict[str, Answer]) -> Picture:
    """Return strip, yarn at true scale and knitted swatch of each plan, on one scale for all.

    Parameters
    ----------
    plans : dict of str to Answer
        One to six, each under what it is called.

    Raises
    ------
    PlanError
        For none, or more than six.
    """
    _check(plans)
    each = " ".join(f"{name}: {strip_alt(answer)}" for name, answer in plans.items())
    return small_picture(side_by_side(plans, _SHOWN_PX), f"Side by side. {each} {read_so(plans)}")


def show_differences(plans: dict[str, Answer], explained: bool = False) -> Fragment:
    """Return what differs between plans in sentences, and a table of the numbers of each.

    Parameters
    ----------
    plans : dict of str to Answer
        One to six, each under what it is called.
    explained : bool
        Whether figures answer why.

    Raises
    ------
    PlanError
        For none, or more than six.
    """
    _check(plans)
    yarns = [comparison(answer) for answer in plans.values()]
    rows = list(_rows(yarns))
    whys = NOT_ASKED
    if explained:
        whys = compared_whys(plans, max(yarn.most_colours for yarn in yarns))
    numbers = table("the numbers of each", ("", *plans), rows, whys)
    differences = told_apart(plans)
    live = Html('<div aria-live="polite"><b>what differs</b><ul>{}</ul></div>{}{}')
    why = asked_together(_seen(plans, rows, whys), "what differs", whys.measures)
    html = live.format(items(differences), why, Html(numbers.html))
    return Fragment(html, "\n".join([*differences, "  ".join(plans), numbers.text]))


def told_apart(plans: dict[str, Answer]) -> tuple[str, ...]:
    """Return what differs between plans in sentences; one that says so where nothing does."""
    differences = difference_sentences(plans)
    if differences or len(plans) < 2:
        return differences
    first, *others = (_where(answer) for answer in plans.values())
    return (_SAME if all(other == first for other in others) else _SAME_NUMBERS,)


def _seen(plans: dict[str, Answer], rows: list[tuple[str, ...]], whys: Whys) -> tuple[Seen, ...]:
    """Return the figures of the sentences: those of the table, and how much shorter yarns are."""
    if not whys.rows or len(plans) < 2:
        return ()
    cells = [(cell, whys.rows[what]) for what, *each in rows for cell in each]
    lengths_m = [answer.layout.stretches.yarn_m for answer in plans.values()]
    less, say = shorter_reason(plans), whys.measures
    shorter = [(say.long(max(lengths_m) - length_m), less) for length_m in lengths_m]
    return together([*cells, *shorter])


def _where(answer: Answer) -> tuple[object, ...]:
    """Return which lot, by name and colour, lies where on every ply."""
    along, names = answer.layout.stretches, np.array(answer.plan.names, dtype=object)
    colours = np.array(answer.palette.srgb, dtype=object)
    lots = (names[along.lot].tolist(), colours[along.lot].tolist())
    return np.rint(along.edges_m * 1000).tolist(), *lots


def _rows(yarns: list[Comparison]) -> Iterator[tuple[str, ...]]:
    """Yield a row for each number, as it stands beside the pictures."""
    yield _row("yarn", map(_long, yarns))
    yield _row("matched", (percent(yarn.share_of(1)) for yarn in yarns))
    for count in range(2, max(yarn.most_colours for yarn in yarns) + 1):
        shares = (percent(yarn.share_of(count)) for yarn in yarns)
        yield _row(f"{count} colours side by side", shares)
    yield _row("loudest marl", map(_loudest, yarns))
    yield _row("loud over", (percent(yarn.loud_share) for yarn in yarns))
    yield _row("changes of colour", (str(yarn.changes) for yarn in yarns))
    yield _row("left over", (left_words(yarn) for yarn in yarns))
    yield _row("wraps to the inch", (f"{yarn.wpi:.0f}" for yarn in yarns))
    yield _row("on a shop's label", (yarn.called for yarn in yarns))
    yield _row("plying begins with", (lots_words(yarn.begins) for yarn in yarns))
    yield _row("the yarn ends with", (lots_words(yarn.ends) for yarn in yarns))


def _row(what: str, cells: Iterable[str]) -> tuple[str, ...]:
    return (what, *cells)


def _long(yarn: Comparison) -> str:
    return f"{yarn.about}{yarn.say.long(yarn.length_m)}, {yarn.say.mass(yarn.mass_g, 0)}"


def _loudest(yarn: Comparison) -> str:
    if not yarn.loudest:
        return "none"
    return f"{yarn.loudest}: {' beside '.join(yarn.loudest_lots)}"


def _check(plans: dict[str, Answer]) -> None:
    if not 1 <= len(plans) <= MOST_COMPARED:
        remedy = f"compare 1 to {MOST_COMPARED} plans"
        raise PlanError([Fault("", "plans", str(len(plans)), remedy)])
