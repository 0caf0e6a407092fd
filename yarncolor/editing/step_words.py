"""What a step changed, in a few words: what undo takes back, and what is done again."""

from collections import Counter
from collections.abc import Iterator

from yarncolor.defaults import plies_of
from yarncolor.editing.history import Step
from yarncolor.editing.sequence import names_of_places
from yarncolor.phrases import join_first, join_words
from yarncolor.plan import Lot, Plan
from yarncolor.plan.key import attribute_of
from yarncolor.plan.reference import KEYS, ROWS, TABLES

_MOST = 3
_ANOTHER_PLAN = "another plan in its place"
_LAST = "the last step"
_ORDER = "the order of the lots"
_OF_THE_ORDER = ("sequence", "parts", "portions", "from", "to")
_AT_THE_WHEEL = {
    "spun": "what was spun",
    "lost": "what was lost",
    "to_spin": "what is still to spin",
    "pull_off": "what is drawn off",
}


def step_words(before: Step, after: Step) -> str:
    """Return what differs between two steps: ``scheme, plies`` or ``the grams of Rust``.

    Parameters
    ----------
    before, after : Step
        One after the other.
    """
    if before.document is not after.document:
        return _ANOTHER_PLAN
    told = list(dict.fromkeys([*_held(before, after), *_changes(before.plan, after.plan)]))
    if not told:
        return _LAST
    return join_first(told, _MOST)


def change_words(before: Plan, after: Plan) -> str:
    """Return what differs between two plans, in a few words; nothing where they say the same.

    Parameters
    ----------
    before, after : Plan
        One after the other.
    """
    told = list(dict.fromkeys(_changes(before, after)))
    return join_first(told, _MOST) if told else ""


def _held(before: Step, after: Step) -> Iterator[str]:
    names = names_of_places(after.plan)
    for entry in sorted(before.order.held ^ after.order.held):
        if entry in after.order.entries and len(names) == len(after.order):
            name = names[after.order.place_of(entry)]
            yield f"{name} {'kept in its place' if entry in after.order.held else 'let go'}"


def _changes(before: Plan, after: Plan) -> Iterator[str]:
    if before.lots != after.lots:
        yield from _lots(before, after)
    old, new = names_of_places(before), names_of_places(after)
    moved = old != new and Counter(old) == Counter(new)
    if moved:
        yield _ORDER
    for (table, key), declared in KEYS.items():
        if table in ("lots", *ROWS) or (moved and key in _OF_THE_ORDER):
            continue
        if _value(before, table, key) != _value(after, table, key):
            yield _ORDER if key == "sequence" else declared.words or key
    for table in ROWS:
        if getattr(before, table) != getattr(after, table):
            yield _AT_THE_WHEEL[table]


def _value(plan: Plan, table: str, key: str) -> object:
    if (table, key) == ("scheme", "plies"):
        return plies_of(plan.scheme)
    holder = getattr(plan, table, None) if table in TABLES else plan
    return getattr(holder, attribute_of(key), None)


def _lots(before: Plan, after: Plan) -> Iterator[str]:
    old, new = ({lot.name: lot for lot in plan.lots} for plan in (before, after))
    gone, come = (
        [name for name in one if name not in other] for one, other in ((old, new), (new, old))
    )
    if len(gone) == len(come) == 1 and len(old) == len(new):
        yield f"the name of {come[0]}"
    else:
        yield from (f"{name} taken away" for name in gone)
        yield from (f"{name} added" for name in come)
    for name in (name for name in new if name in old and old[name] != new[name]):
        yield f"{_keys(old[name], new[name])} of {name}"
    if not gone and not come and tuple(old) != tuple(new):
        yield "the rows of the lots"


def _keys(old: Lot, new: Lot) -> str:
    keys = [key for table, key in KEYS if table == "lots"]
    changed = [KEYS["lots", key].words for key in keys if getattr(old, key) != getattr(new, key)]
    return join_words(list(dict.fromkeys(words for words in changed if words)) or ["the colour"])


def stays_words(step: Step) -> str:
    """Return which pieces on the bobbins stay as they went in, though their rows ask for others.

    Nothing, where the step changed no such row.
    """
    rows: dict[int, list[int]] = {}
    for key in step.stays:
        if key.row:
            rows.setdefault(key.ply, []).append(key.row)
    if not rows:
        return ""
    places = [f"ply {ply}, {_rows(sorted(own))}" for ply, own in rows.items()]
    return (
        f"What is spun stays as it went in; its rows ask for something else now: "
        f"{'; '.join(places)}."
    )


def stays_beside_words(step: Step) -> str:
    """Return the same while something is dragged: its own section says it then, not the bar."""
    return stays_words(step) if step.drag else ""


def _rows(rows: list[int]) -> str:
    """Return rows in a few words: ``rows 1 to 4 and 6``."""
    firsts = [row for row in rows if row - 1 not in rows]
    lasts = [row for row in rows if row + 1 not in rows]
    spans = [span for pair in zip(firsts, lasts, strict=True) for span in _span(*pair)]
    return f"{'rows' if len(rows) > 1 else 'row'} {join_first(spans, _MOST)}"


def _span(first: int, last: int) -> list[str]:
    """Return rows from one to another, three and more as a span."""
    if last - first > 1:
        return [f"{first} to {last}"]
    return [str(row) for row in range(first, last + 1)]
