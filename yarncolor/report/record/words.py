"""A record in a spinner's words: measures with their units, differences with their signs."""

from collections.abc import Callable
from itertools import compress

from yarncolor.answers.came_true import By
from yarncolor.answers.measured_yarn import Measure
from yarncolor.measures import METRIC
from yarncolor.phrases import counted, hours_text
from yarncolor.report import wheel_advice
from yarncolor.report.record.record import Days, Foretold, Over, Record
from yarncolor.report.record.yarns import Yarn

NOT_KNOWN = "–"
SAME = "the same"
_HALF_A_MINUTE_H = 1 / 120
_MINUS, _PLUS = "\N{MINUS SIGN}", "+"

_long = METRIC.long


def _grams(mass_g: float) -> str:
    return f"{mass_g:.1f} g" if mass_g < 100 else f"{mass_g:.0f} g"


def _share(share: float) -> str:
    return f"{share * 100:.1f}%".replace("-", _MINUS)


def _points(share: float) -> str:
    return f"{share * 100:.1f} m in 100 m"


_Words = Callable[[float], str]
_SAID: dict[str, tuple[str, _Words, bool]] = {
    "length_m": ("length as plied", _long, True),
    "finished_length_m": ("length after the wash", _long, True),
    "mass_g": ("weight", _grams, True),
    "m_per_100g": ("metres in 100 g, as plied", lambda value: f"{value:.0f} m", True),
    "wpi": ("wraps to the inch, finished", lambda value: f"{value:.1f}", False),
    "skeins": ("skeins", lambda value: f"{value:.0f}", False),
    "hours_spinning": ("hours spinning", hours_text, True),
    "hours_plying": ("hours plying", hours_text, True),
    "lost_in_plying": ("length lost in plying", _share, False),
    "lost_in_wash": ("length lost in rest and wash", _share, False),
    "matched": ("plies alike over", _share, False),
}
"""Of each measure what it is called, how it is said, and whether a difference is a part of it."""


def measure_name(name: str) -> str:
    """Return what a measure is called."""
    return _SAID[name][0] if name in _SAID else name


def measure_text(name: str, value: float | None) -> str:
    """Return a measure in words.

    Parameters
    ----------
    name : str
        What is measured.
    value : float or None
        None where it is not known.
    """
    if value is None:
        return NOT_KNOWN
    return _SAID[name][1](value) if name in _SAID else f"{value:g}"


def difference_text(name: str, difference: float | None, planned: float | None) -> str:
    """Return a difference with its sign, and what part of the plan it is.

    Parameters
    ----------
    name : str
        What is measured.
    difference : float or None
        None where it is not known.
    planned : float or None
        What it is a part of.
    """
    if difference is None:
        return NOT_KNOWN
    _, words, is_part = _SAID.get(name, ("", "{:g}".format, False))
    words = _points if words is _share else words
    said, is_hours = words(abs(difference)), words is hours_text
    if said == words(0.0) and not (is_hours and abs(difference) >= _HALF_A_MINUTE_H):
        return SAME
    sign = _PLUS if difference > 0 else _MINUS
    share = abs(difference / planned) if is_part and planned else 0.0
    part = f" ({sign}{share:.0%})" if round(share * 100) else ""
    return f"{sign}{said}{part}"


def measure_row(one: Measure) -> tuple[str, ...]:
    """Return a measure as a row: name, planned, spun, made, and what was made against the plan."""
    values = (one.planned, one.spun, one.made)
    against = one.made_less_planned if one.made is not None else one.spun_less_planned
    return (
        measure_name(one.name),
        *(measure_text(one.name, value) for value in values),
        difference_text(one.name, against, one.planned),
    )


MEASURE_HEAD = ("", "planned", "as spun", "made", "against the plan")


def measure_rows(record: Record) -> list[tuple[str, ...]]:
    """Return heads and measures as rows; a column of which nothing is known is left out."""
    rows = [measure_row(one) for one in record.measures]
    known = [any(row[at] != NOT_KNOWN for row in rows) for at in range(len(MEASURE_HEAD))]
    return [tuple(compress(row, known)) for row in (MEASURE_HEAD, *rows)]


def guessed_text(record: Record) -> str:
    """Return on what planned lengths hang where nobody said how thick the single is; else ""."""
    if not record.guessed:
        return ""
    return f"How thick the single is was not said: what is planned holds {record.guessed}."


def over_text(left: Over) -> str:
    """Return what was left over of a lot."""
    where = "in the drawer" if left.ply is None else f"on the bobbin of ply {left.ply}"
    return f"{left.mass_g:.1f} g of {left.lot}, {where}"


def left_over_head(record: Record) -> str:
    """Return what stands over what was left: as the plan has it, where nothing else is known."""
    return "Left over, as planned" if record.spun == "nothing" else "Left over"


def verdict_text(one: Foretold) -> str:
    """Return whether advice came true, and by what that is known."""
    if one.came_true is None:
        return _NOT_ALL_SPUN if is_of_the_wheel(one) else _NOTHING_TELLS
    true = "came true" if one.came_true else "did not come true"
    told, found = one.told, one.found
    if one.by in _SO:
        return f"{true}: {_SO[one.by]}"
    if one.by not in By.__members__ or told is None or found is None:
        return true
    return f"{true}: {_BY[By[one.by]](told, found)}"


_NOTHING_TELLS, _NOT_ALL_SPUN = "nothing that was measured tells", "not all is spun yet"
_SO = {By.AS_SPUN.name: "so it was spun", By.SCALE.name: "so the scale showed"}
"""What is said where no two numbers stand beside one another."""


def is_of_the_wheel(one: Foretold) -> bool:
    """Return whether advice came from what was spun, so that something always tells."""
    return one.kind in wheel_advice.KINDS


_BY: dict[By, Callable[[float, float], str]] = {
    By.LEFT_ON_BOBBIN: lambda told, found: (
        f"{_long(found)} of single were left on the bobbin, {_long(told)} as planned"
    ),
    By.RUN_DOUBLE: lambda told, found: (
        f"the longest such run is {_long(found)}, {_long(told)} as planned"
        if found
        else "no run was spun too long"
    ),
    By.IN_DRAWER: lambda told, found: f"{found:.1f} g lie in the drawer, {told:.1f} g as planned",
    By.LENGTH: lambda told, found: f"{_long(found)} came out, {_long(told)} were wanted",
    By.MASS: lambda told, found: f"{found:.0f} g came out, {told:.0f} g were wanted",
    By.HOURS: lambda told, found: f"it took {hours_text(found)}, {hours_text(told)} as planned",
    By.SKEINS: lambda told, found: f"{counted(found, 'skein')}, {told:.0f} as planned",
    By.GRIST: lambda told, found: (
        f"the yarn has {found:.0f} m in 100 g, {told:.0f} m by its singles as spun"
    ),
    By.EXPECTED: lambda told, found: f"{_long(found)} came out, {_long(told)} were to be expected",
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


def several_row(record: Record) -> tuple[str, ...]:
    """Return a yarn as a row among others; what was made, with its sign against the plan."""
    by_name = {one.name: one for one in record.measures}
    over_g = sum(left.mass_g for left in record.left_over)
    told = [_in_short(by_name.get(name)) for name in ("length_m", "finished_length_m", "mass_g")]
    days = record.days
    when = next(filter(None, (days.washed_on, days.plied_on, days.spun_to, days.spun_from)), "")
    return (
        record.name,
        *told,
        _in_short(by_name.get("wpi")),
        f"{over_g:.1f} g" if over_g else "nothing",
        when or NOT_KNOWN,
    )


def _in_short(one: Measure | None) -> str:
    if one is None:
        return NOT_KNOWN
    if one.made is None:
        as_now = one.spun if one.spun is not None else one.planned
        return NOT_KNOWN if as_now is None else f"{measure_text(one.name, as_now)} as planned"
    by = difference_text(one.name, one.made_less_planned, one.planned)
    against = "" if by == NOT_KNOWN else f", {by}"
    return f"{measure_text(one.name, one.made)}{against}"


def yarn_text(yarn: Yarn) -> str:
    """Return the record of a yarn in words."""
    return record_text(yarn.record)


def record_text(record: Record) -> str:
    """Return the record of a yarn in words, for a terminal or the plain text of a notebook."""
    rows = measure_rows(record)
    wide = [max(map(len, column)) for column in zip(*rows, strict=True)]
    table = [
        "  ".join(text.ljust(width) for text, width in zip(row, wide, strict=True)).rstrip()
        for row in rows
    ]
    over = [over_text(left) for left in record.left_over]
    told = [f"{one.text}\n    {verdict_text(one)}" for one in record.advice]
    parts = [
        [record.name, *filter(None, (days_text(record.days), record.note))],
        [*table, spun_text(record)],
        [f"{left_over_head(record)}: {'; '.join(over) or 'nothing'}."],
        ["What the advice had said", *(f"  {text}" for text in told)] if told else [],
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"
