"""Several lots at once: a plan with all that lines of text say, or what is wrong with any."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from yarncolor.editing.lot_lines import UNCOLOURED, Line, lines_of, lot_line
from yarncolor.editing.lot_rows import Row, plan_with_rows, rows_of
from yarncolor.editing.new_plan import has_no_lots_yet
from yarncolor.editing.row_faults import faults_by_field
from yarncolor.errors import PlanError
from yarncolor.measures import Measures, measures_of
from yarncolor.phrases import join_first
from yarncolor.plan import Lot, Plan
from yarncolor.plan.limits import MOST_LOTS

_NOTHING = "Nothing is typed here yet: one lot a line, as “{}”."
_MOST_NAMED = 6


@dataclass(frozen=True)
class NewLots:
    """A plan with several more lots, or what is wrong with the lines that say them.

    Parameters
    ----------
    plan : Plan or None
        With all of them; None where any line is wrong.
    words : str
        What came of it.
    faults : tuple of str
        What would be right, line by line.
    """

    plan: Plan | None
    words: str
    faults: tuple[str, ...] = ()


def with_lines(plan: Plan, text: str) -> NewLots:
    """Return a plan with the lots of several lines: all of them, or none.

    They go into the order as lots typed one by one would; in a new plan they take the place of
    the lot it began with.

    Parameters
    ----------
    plan : Plan
        As it stands.
    text : str
        As `lines_of` reads it.
    """
    say = measures_of(plan)
    lines = lines_of(text, say)
    if not lines:
        return NewLots(None, _NOTHING.format(lot_line(say)))
    if len(lines) > MOST_LOTS:
        return _refused([(0, f"{len(lines):,} lines are too many lots: at most {MOST_LOTS}")])
    kept = [] if has_no_lots_yet(plan) else rows_of(plan)
    read = [line for line in lines if line.row is not None]
    rows = [line.row for line in read if line.row is not None]
    faults = [*_unread(lines), *_named_twice(read, [row.name for row in kept])]
    try:
        made = plan_with_rows(plan, [*kept, *rows])
    except PlanError as error:
        numbers = [0] * len(kept) + [at.number for at in read]
        faults += _not_right(error, [*kept, *rows], numbers, say)
    else:
        if not faults:
            return NewLots(made, _added(made.lots[len(kept) :], rows))
    return _refused(faults)


def _unread(lines: Sequence[Line]) -> Iterator[tuple[int, str]]:
    return ((line.number, line.wrong) for line in lines if line.row is None)


def _named_twice(lines: Sequence[Line], there: Sequence[str]) -> Iterator[tuple[int, str]]:
    """Yield every name that the stash or a line above has already."""
    taken: dict[str, str] = dict.fromkeys(there, "the stash")
    for line in lines:
        name = line.row.name.strip() if line.row else ""
        if name in taken:
            yield (
                line.number,
                f"{name} is in {taken[name]} already; give this lot a name of its own",
            )
        elif name:
            taken[name] = f"line {line.number}"


def _not_right(
    error: PlanError, rows: Sequence[Row], numbers: Sequence[int], say: Measures
) -> Iterator[tuple[int, str]]:
    """Yield what the plan says of the rows; a name that is taken is told already.

    What is wrong elsewhere follows from the rows, and is told where nothing is wrong with them.
    """
    fields, rest = faults_by_field(error, rows, say)
    taken = [row.name.strip() for row in rows]
    for (at, field), words in fields.items():
        if field != "name" or taken[at] not in taken[:at]:
            yield numbers[at], words
    yield from ((0, words) for words in rest if not fields)


def _refused(faults: Sequence[tuple[int, str]]) -> NewLots:
    told = [f"Line {at}: {words}." if at else f"{words}." for at, words in sorted(faults)]
    are = "this line is" if len({at for at, _ in faults}) == 1 else "these lines are"
    return NewLots(None, f"No lot is added until {are} right.", tuple(dict.fromkeys(told)))


def _added(lots: Sequence[Lot], rows: Sequence[Row]) -> str:
    """Return what was added, and which of it has no colour yet."""
    count, them = (f"{len(lots)} lots", "them") if len(lots) > 1 else (lots[0].name, "it")
    grams = sum(lot.mass_g for lot in lots)
    words = f"{count} added, {grams:,.1f} g. Undo takes {them} out again."
    grey = [row.name for row in rows if row.colour == UNCOLOURED]
    if not grey:
        return words
    return f"{words} Grey until you say the colour: {join_first(grey, _MOST_NAMED)}."
