"""The record of a yarn as plain data: what ``record.json`` holds, and what pages are made of."""

from dataclasses import dataclass, fields, is_dataclass
from typing import TYPE_CHECKING, Any

from yarncolor.answers.answer import Answer
from yarncolor.answers.came_true import Verdict, came_true
from yarncolor.answers.guessed_thickness import if_single_is
from yarncolor.answers.measured_yarn import Measure, all_spun, left_over_g, measures
from yarncolor.plan import Lot, Made
from yarncolor.report import wheel_advice
from yarncolor.report.advice import WAYS, Advice, advice_on
from yarncolor.report.dye_notes import made_from

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

FORMAT, KIND = 1, "yarncolor record"
_DIFFERENCES = ("spun_less_planned", "made_less_planned", "made_less_spun")
_SLIGHTEST_G = 0.05
"""Of what is left over: a tenth on the scale would show none."""


@dataclass(frozen=True)
class DyeNotes:
    """What is written down of a lot.

    Parameters
    ----------
    name : str
        Its name.
    srgb : str
        Its colour as CSS hex.
    mass_g : float
        Grams there were of it.
    fibre, dye, mordant, bath, dyed_on, source, note : str
        As written down; empty where nothing is.
    """

    name: str
    srgb: str
    mass_g: float
    fibre: str
    dye: str
    mordant: str
    bath: str
    dyed_on: str
    source: str
    note: str


@dataclass(frozen=True)
class Over:
    """What was left over of a lot.

    Parameters
    ----------
    lot : str
        Its name.
    ply : int or None
        On which bobbin, from 1; None in the drawer.
    mass_g : float
        Grams.
    """

    lot: str
    ply: int | None
    mass_g: float


@dataclass(frozen=True)
class Foretold:
    """What advice had said, and whether it came true.

    Parameters
    ----------
    kind : str
        What it is about, for other programs.
    text : str
        What it said.
    came_true : bool or None
        None where nothing that was measured tells.
    by : str
        By what it is known; empty where it is not.
    told, found : float or None
        Its value as advice had it, and as it was.
    """

    kind: str
    text: str
    came_true: bool | None
    by: str
    told: float | None
    found: float | None


@dataclass(frozen=True)
class Days:
    """When it was made, as 2026-03-01; empty where that is not said."""

    spun_from: str = ""
    spun_to: str = ""
    plied_on: str = ""
    washed_on: str = ""


@dataclass(frozen=True)
class Record:
    """Everything that is remembered of a yarn.

    Parameters
    ----------
    name : str
        What it is called among others.
    title, purpose, note : str
        As the plan has them.
    scheme : str
        How its plies were ordered.
    plies : int
        How many.
    guessed : str
        On what the planned numbers hang, where the thickness of the single was not said.
    spun : str
        nothing, some or all: how much of the spinning is written down.
    days : Days
        When.
    measures : tuple of Measure
        Planned, spun and made.
    lots : tuple of DyeNotes
        Of every lot.
    left_over : tuple of Over
        What did not become yarn.
    advice : tuple of Foretold
        What had been said, worst first.
    picture : str
        File name of its photograph; empty where there is none.
    """

    name: str
    title: str
    purpose: str
    note: str
    scheme: str
    plies: int
    guessed: str
    spun: str
    days: Days
    measures: tuple[Measure, ...]
    lots: tuple[DyeNotes, ...]
    left_over: tuple[Over, ...]
    advice: tuple[Foretold, ...]
    picture: str


def record(answer: Answer, name: str = "") -> Record:
    """Return what is remembered of a yarn, its texts as its plan says masses and lengths.

    Parameters
    ----------
    answer : Answer
        What follows from its plan, from what was spun and what came out.
    name : str
        What it is called among others; its title where nothing is said.
    """
    plan, made = answer.plan, answer.plan.made or Made()
    return Record(
        name=name or plan.title,
        title=plan.title,
        purpose=plan.purpose,
        note=made.note,
        scheme=answer.resolved.scheme.name,
        plies=answer.resolved.yarn.plies,
        guessed=if_single_is(answer),
        spun=_how_much_spun(answer),
        days=Days(**{item.name: str(getattr(made, item.name) or "") for item in fields(Days)}),
        measures=measures(answer),
        lots=tuple(
            _notes(lot, srgb) for lot, srgb in zip(plan.lots, answer.palette.srgb, strict=True)
        ),
        left_over=_left_over(answer),
        advice=_foretold(answer),
        picture=made.picture,
    )


def _how_much_spun(answer: Answer) -> str:
    if answer.layout.wheel is None:
        return "nothing"
    return "all" if all_spun(answer) else "some"


def _notes(lot: Lot, srgb: str) -> DyeNotes:
    return DyeNotes(
        name=lot.name,
        srgb=srgb,
        mass_g=lot.mass_g,
        fibre=lot.fibre,
        dye=lot.dye,
        mordant=lot.mordant,
        bath=_bath(lot),
        dyed_on=lot.dyed_on,
        source=lot.source,
        note=lot.note,
    )


def _bath(lot: Lot) -> str:
    """Return which bath a lot is of: as written down, and of which lot's dye where it is later."""
    return "; ".join(filter(None, [lot.bath_number, *made_from(lot)]))


def _left_over(answer: Answer) -> tuple[Over, ...]:
    return tuple(
        Over(answer.plan.names[lot], None if ply is None else ply + 1, mass_g)
        for lot, ply, mass_g in left_over_g(answer)
        if mass_g >= _SLIGHTEST_G
    )


def _foretold(answer: Answer) -> tuple[Foretold, ...]:
    """Return what was said before the spinning, then what was said only at the wheel."""
    later = advice_on(answer) if answer.layout.wheel is not None else []
    at_wheel = [one for one in later if one.kind in wheel_advice.KINDS]
    every = [*advice_on(answer.as_planned), *at_wheel]
    return tuple(_with_verdict(one.kind, _lead(one), came_true(one.kind, answer)) for one in every)


def _lead(advice: Advice) -> str:
    """Return what to know, without what would have mended it."""
    return advice.lead.removesuffix(WAYS).strip()


def _with_verdict(kind: str, text: str, verdict: Verdict | None) -> Foretold:
    if verdict is None:
        return Foretold(kind, text, None, "", None, None)
    return Foretold(kind, text, verdict.came_true, verdict.by.name, verdict.told, verdict.found)


def record_data(records: "tuple[Record, ...]") -> dict[str, Any]:
    """Return what ``record.json`` holds of yarns."""
    from yarncolor import __version__

    yarns = [_plain(one) for one in records]
    return {"kind": KIND, "format": FORMAT, "yarncolor": __version__, "yarns": yarns}


def _plain(table: "DataclassInstance") -> dict[str, Any]:
    data = {item.name: _value(getattr(table, item.name)) for item in fields(table)}
    if isinstance(table, Measure):
        data |= {name: getattr(table, name) for name in _DIFFERENCES}
    return data


def _value(value: Any) -> Any:
    if isinstance(value, tuple):
        return [_value(item) for item in value]
    return _plain(value) if is_dataclass(value) and not isinstance(value, type) else value
