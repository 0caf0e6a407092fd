"""A record in a spinner's words: measures with their units, differences with their signs.

A record by itself, as `read_record` returns it, is said in grams and metres, as its texts are.
"""

from collections.abc import Callable, Sequence
from itertools import compress

from yarncolor.answers.came_true import By
from yarncolor.answers.measured_yarn import Measure
from yarncolor.measures import METRIC, Measures
from yarncolor.phrases import counted, hours_text
from yarncolor.report import wheel_advice
from yarncolor.report.record.record import Days, Foretold, Over, Record
from yarncolor.report.record.yarns import Yarn, are_unlike

NOT_KNOWN = "–"
SAME = "the same"
_HALF_A_MINUTE_H = 1 / 120
_LARGE = 100
"""From so many grams, or ounces, on they are told a decimal coarser."""

_MINUS, _PLUS = "\N{MINUS SIGN}", "+"


def _mass(mass_g: float, say: Measures) -> str:
    return say.mass(mass_g, 1 if say.mass.of(mass_g) < _LARGE else 0)


def _grist(m_per_100g: float, say: Measures) -> str:
    return f"{say.grist.number(m_per_100g, 0)} {say.length.unit}"


def _share(share: float, _: Measures) -> str:
    return f"{share * 100:.1f}%".replace("-", _MINUS)


def _points(share: float, say: Measures) -> str:
    return f"{share * 100:.1f} {say.length.unit} in 100 {say.length.unit}"


def _hours(hours: float, _: Measures) -> str:
    return hours_text(hours)


_Words = Callable[[float, Measures], str]
_SAID: dict[str, tuple[str, _Words, bool]] = {
    "length_m": ("length as plied", lambda value, say: say.long(value), True),
    "finished_length_m": ("length after the wash", lambda value, say: say.long(value), True),
    "mass_g": ("weight", _mass, True),
    "m_per_100g": ("{grist}, as plied", _grist, True),
    "wpi": ("wraps to the inch, finished", lambda value, _: f"{value:.1f}", False),
    "skeins": ("skeins", lambda value, _: f"{value:.0f}", False),
    "hours_spinning": ("hours spinning", _hours, True),
    "hours_plying": ("hours plying", _hours, True),
    "lost_in_plying": ("length lost in plying", _share, False),
    "lost_in_wash": ("length lost in rest and wash", _share, False),
    "matched": ("plies alike over", _share, False),
}
"""Of each measure what it is called, how it is said, and whether a difference is a part of it."""


def measure_name(name: str, say: Measures = METRIC) -> str:
    """Return what a measure is called.

    Parameters
    ----------
    name : str
        What is measured.
    say : Measures
        What it is said in.
    """
    return _SAID[name][0].format(grist=say.grist.name) if name in _SAID else name


def measure_text(name: str, value: float | None, say: Measures = METRIC) -> str:
    """Return a measure in words.

    Parameters
    ----------
    name : str
        What is measured.
    value : float or None
        None where it is not known.
    say : Measures
        What it is said in.
    """
    if value is None:
        return NOT_KNOWN
    return _SAID[name][1](value, say) if name in _SAID else f"{value:g}"


def difference_text(
    name: str, difference: float | None, planned: float | None, say: Measures = METRIC
) -> str:
    """Return a difference with its sign, and what part of the plan it is.

    Parameters
    ----------
    name : str
        What is measured.
    difference : float or None
        None where it is not known.
    planned : float or None
        What it is a part of.
    say : Measures
        What it is said in.
    """
    if difference is None:
        return NOT_KNOWN
    _, words, is_part = _SAID.get(name, ("", lambda value, _: f"{value:g}", False))
    words = _points if words is _share else words
    said, is_hours = words(abs(difference), say), words is _hours
    if said == words(0.0, say) and not (is_hours and abs(difference) >= _HALF_A_MINUTE_H):
        return SAME
    sign = _PLUS if difference > 0 else _MINUS
    share = abs(difference / planned) if is_part and planned else 0.0
    part = f" ({sign}{share:.0%})" if round(share * 100) else ""
    return f"{sign}{said}{part}"


def measure_row(one: Measure, say: Measures = METRIC) -> tuple[str, ...]:
    """Return a measure as a row: name, planned, spun, made, and what was made against the plan.

    Parameters
    ----------
    one : Measure
        Of a record.
    say : Measures
        What it is said in.
    """
    values = (one.planned, one.spun, one.made)
    against = one.made_less_planned if one.made is not None else one.spun_less_planned
    return (
        measure_name(one.name, say),
        *(measure_text(one.name, value, say) for value in values),
        difference_text(one.name, against, one.planned, say),
    )


MEASURE_HEAD = ("", "planned", "as spun", "made", "against the plan")


def measure_rows(record: Record, say: Measures = METRIC) -> list[tuple[str, ...]]:
    """Return heads and measures as rows; a column of which nothing is known is left out.

    Parameters
    ----------
    record : Record
        Of a yarn.
    say : Measures
        What it is said in.
    """
    rows = [measure_row(one, say) for one in record.measures]
    known = [any(row[at] != NOT_KNOWN for row in rows) for at in range(len(MEASURE_HEAD))]
    return [tuple(compress(row, known)) for row in (MEASURE_HEAD, *rows)]


def guessed_text(record: Record) -> str:
    """Return on what planned lengths hang where nobody said how thick the single is; else ""."""
    if not record.guessed:
        return ""
    return f"How thick the single is was not said: what is planned holds {record.guessed}."


def over_text(left: Over, say: Measures = METRIC) -> str:
    """Return what was left over of a lot.

    Parameters
    ----------
    left : Over
        Of a record.
    say : Measures
        What it is said in.
    """
    where = "in the drawer" if left.ply is None else f"on the bobbin of ply {left.ply}"
    return f"{say.hardly(left.mass_g)} of {left.lot}, {where}"


def left_over_head(record: Record) -> str:
    """Return what stands over what was left: as the plan has it, where nothing else is known."""
    return "Left over, as planned" if record.spun == "nothing" else "Left over"


def verdict_text(one: Foretold, say: Measures = METRIC) -> str:
    """Return whether advice came true, and by what that is known.

    Parameters
    ----------
    one : Foretold
        Of a record.
    say : Measures
        What it is said in.
    """
    if one.came_true is None:
        return _NOT_ALL_SPUN if is_of_the_wheel(one) else _NOTHING_TELLS
    true = "came true" if one.came_true else "did not come true"
    told, found = one.told, one.found
    if one.by in _SO:
        return f"{true}: {_SO[one.by]}"
    if one.by not in By.__members__ or told is None or found is None:
        return true
    return f"{true}: {_BY[By[one.by]](told, found, say)}"


_NOTHING_TELLS, _NOT_ALL_SPUN = "nothing that was measured tells", "not all is spun yet"
_SO = {By.AS_SPUN.name: "so it was spun", By.SCALE.name: "so the scale showed"}
"""What is said where no two numbers stand beside one another."""


def is_of_the_wheel(one: Foretold) -> bool:
    """Return whether advice came from what was spun, so that something always tells."""
    return one.kind in wheel_advice.KINDS


_BY: dict[By, Callable[[float, float, Measures], str]] = {
    By.LEFT_ON_BOBBIN: lambda told, found, say: (
        f"{say.long(found)} of single were left on the bobbin, {say.long(told)} as planned"
    ),
    By.RUN_DOUBLE: lambda told, found, say: (
        f"the longest such run is {say.long(found)}, {say.long(told)} as planned"
        if found
        else "no run was spun too long"
    ),
    By.IN_DRAWER: lambda told, found, say: (
        f"{say.mass(found)} lie in the drawer, {say.mass(told)} as planned"
    ),
    By.LENGTH: lambda told, found, say: f"{say.long(found)} came out, {say.long(told)} were wanted",
    By.MASS: lambda told, found, say: (
        f"{say.mass(found, 0)} came out, {say.mass(told, 0)} were wanted"
    ),
    By.HOURS: lambda told, found, _: f"it took {hours_text(found)}, {hours_text(told)} as planned",
    By.SKEINS: lambda told, found, _: f"{counted(found, 'skein')}, {told:.0f} as planned",
    By.GRIST: lambda told, found, say: (
        f"the yarn has {say.grist(found, 0)}, {say.grist.number(told, 0)} by its singles as spun"
    ),
    By.EXPECTED: lambda told, found, say: (
        f"{say.long(found)} came out, {say.long(told)} were to be expected"
    ),
}


def days_text(days: Days) -> str:
    """Return when a yarn was spun, plied and washed; nothing where none of it is said."""
    parts = []
    if days.spun_from or days.spun_to:
        both = days.spun_from and days.spun_to and days.spun_from != days.spun_to
        first = days.spun_from or days.spun_to
        parts.append(f"spun {first} to {days.spun_to}" if both else f"spun {first}")
    parts += [
        f"{word} {day}"
        for word, day in (("plied", days.plied_on), ("washed", days.washed_on))
        if day
    ]
    return ", ".join(parts)


def spun_text(record: Record) -> str:
    """Return how much of the spinning is written down."""
    return {
        "nothing": "Nothing is written down of the spinning: what was spun is not known.",
        "some": "As spun: as far as it is written down, the rest as planned.",
        "all": "As spun: by what is written down of every row.",
    }.get(record.spun, "")


SEVERAL_HEAD = ("yarn", "length as plied", "after the wash", "weight", "wraps", "left over", "made")


def several_row(record: Record, say: Measures = METRIC) -> tuple[str, ...]:
    """Return a yarn as a row among others; what was made, with its sign against the plan.

    Parameters
    ----------
    record : Record
        Of one of them.
    say : Measures
        What all of them are said in.
    """
    by_name = {one.name: one for one in record.measures}
    over_g = sum(left.mass_g for left in record.left_over)
    told = [
        _in_short(by_name.get(name), say) for name in ("length_m", "finished_length_m", "mass_g")
    ]
    days = record.days
    when = next(filter(None, (days.washed_on, days.plied_on, days.spun_to, days.spun_from)), "")
    return (
        record.name,
        *told,
        _in_short(by_name.get("wpi"), say),
        say.hardly(over_g) if over_g else "nothing",
        when or NOT_KNOWN,
    )


def _in_short(one: Measure | None, say: Measures) -> str:
    if one is None:
        return NOT_KNOWN
    if one.made is None:
        as_now = one.spun if one.spun is not None else one.planned
        return NOT_KNOWN if as_now is None else f"{measure_text(one.name, as_now, say)} as planned"
    by = difference_text(one.name, one.made_less_planned, one.planned, say)
    against = "" if by == NOT_KNOWN else f", {by}"
    return f"{measure_text(one.name, one.made, say)}{against}"


def units_text(yarns: Sequence[Yarn]) -> str:
    """Return that yarns side by side are said in grams and metres, where their plans differ."""
    if not are_unlike(yarns):
        return ""
    return "Their plans are in different units: here all is in grams and metres."


def yarn_text(yarn: Yarn) -> str:
    """Return the record of a yarn in words, as its plan says masses and lengths."""
    return record_text(yarn.record, yarn.say)


def record_text(record: Record, say: Measures = METRIC) -> str:
    """Return the record of a yarn in words, for a terminal or the plain text of a notebook.

    Parameters
    ----------
    record : Record
        Of a yarn.
    say : Measures
        What it is said in.
    """
    rows = measure_rows(record, say)
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    table = [
        "  ".join(text.ljust(width) for text, width in zip(row, wide, strict=True)).rstrip()
        for row in rows
    ]
    over = [over_text(left, say) for left in record.left_over]
    told = [f"{one.text}\n    {verdict_text(one, say)}" for one in record.advice]
    parts = [
        [record.name, *filter(None, (days_text(record.days), record.note))],
        [*table, spun_text(record)],
        [f"{left_over_head(record)}: {'; '.join(over) or 'nothing'}."],
        ["What the advice had said", *(f"  {text}" for text in told)] if told else [],
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"
