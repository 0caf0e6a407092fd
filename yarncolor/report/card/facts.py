"""What the card's pages are filled with: words and order, the same for both forms."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.finishing import Lengths
from yarncolor.answers.guessed_thickness import if_single_is
from yarncolor.measures import Measures
from yarncolor.phrases import direction, hours_text, plied_words, title_of, turns
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.strip_svg import strip_svg
from yarncolor.plan import Lot
from yarncolor.report.advice import advice_on
from yarncolor.report.assumption_text import assumption_sentences
from yarncolor.report.card.bobbins import Bobbin, bobbins
from yarncolor.report.card.forms import LONG, SHORT
from yarncolor.report.card.on_paper import advice_on_paper, no_fault
from yarncolor.report.card.points import MOST_POINTS, check_points
from yarncolor.report.card.sentences import named
from yarncolor.report.card.stash import stash, totals
from yarncolor.report.strip_words import strip_lines
from yarncolor.report.weigh_out_words import carded_in_short, rest_in_short, thing_of_ply
from yarncolor.report.yarn_as_dict import Json
from yarncolor.report.yarn_lines import yarn_lines
from yarncolor.units import tpi
from yarncolor.yarn.structure import says_direction

_STRIP_WIDTH_PX, _STRIP_HEIGHT_PX, _PLY_PX, _FEW_PLIES = 700, 290, 30, 3
_FEWEST_DIGITS, _DIGIT_MM, _POINT_MM, _UNIT_MM = 3, 3.95, 2.2, 9.0
_SVG_NAMESPACE = ' xmlns="http://www.w3.org/2000/svg"'
_RECORDS = {
    "fibre": "fibre",
    "preparation": "prepared as",
    "dye": "dye",
    "mordant": "mordant",
    "bath_number": "bath",
    "dyed_on": "dyed on",
    "source": "from",
}

_POINTS = {SHORT: 16, LONG: MOST_POINTS}
_LONG_NAME = 24
_ROOM_ACROSS = {2: 24, 3: 16, 4: 16}
"""Rows, a stop and its heading counted as two, that have room side by side on the first page."""


def card_facts(answer: Answer, form: str) -> Json:
    """Return what the templates of a card say, by name.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    form : str
        short or long.
    """
    advice = advice_on(answer)
    singles = bobbins(answer)
    return {
        **_plan(answer),
        **_plying(answer, _POINTS[form]),
        "form": form,
        "g": answer.say.mass.unit,
        "gram": answer.say.mass.name,
        "m": answer.say.length.unit,
        "metre": answer.say.length.name,
        "named": named,
        "stash": stash(answer.as_planned),
        "totals": totals(answer.as_planned),
        "strips": list(strip_lines(answer.as_planned)),
        "rest_in_short": rest_in_short(answer),
        "carded_colours": carded_in_short(answer),
        "width": _widths(answer),
        "bobbins": singles,
        "across": _across(answer, singles),
        "strip": _strip(answer),
        "notes": [lot.note for lot in answer.plan.lots],
        "records": [_record(lot) for lot in answer.plan.lots],
        "advice": advice_on_paper(advice),
        "no_fault": no_fault(answer, advice),
        **{
            kind: [item.text for item in advice if item.kind == kind]
            for kind in ("mixed_winding", "runs_out", "few_bobbins")
        },
        "assumptions": assumption_sentences(answer),
    }


def _across(answer: Answer, singles: list[Bobbin]) -> int:
    """Return how many bobbins stand side by side; 0 where their rows flow from column to column."""
    count, names = len(singles), answer.plan.names
    longest = max(sum(len(group.rows) + 2 for group in one.groups) for one in singles)
    are_wide = count > 2 and max(map(len, names)) > _LONG_NAME
    return count if longest <= _ROOM_ACROSS.get(count, 0) and not are_wide else 0


def _plan(answer: Answer) -> Json:
    from yarncolor import __version__

    filled, yarn = answer.resolved, answer.resolved.yarn
    return {
        "version": __version__,
        "title": title_of(answer.plan),
        "purpose": answer.plan.purpose,
        "lots": list(zip(answer.plan.names, answer.palette.srgb, strict=True)),
        "facts": strip_alt(answer),
        "hangs_on": if_single_is(answer),
        "yarn_lines": list(yarn_lines(answer)),
        "yarn": {
            "length": answer.say.long(answer.lengths.plied_m),
            "between": " to ".join(map(answer.say.long, answer.lengths.plied_between_m or ())),
            "mass": f"{answer.say.mass(answer.layout.yarn_g, 0)}",
            "grist": answer.say.yarn(answer.layout.yarn_tex),
            "wraps": f"{yarn.wpi(answer.layout.yarn_tex):.0f}",
            "later": _later(answer.lengths, answer.say),
        },
        "loss_in_carding": _percent(filled.card_loss),
        "loss_in_spinning": _percent(filled.spin_loss),
    }


def _plying(answer: Answer, most_points: int) -> Json:
    points, left_out = check_points(answer, most_points)
    strands = answer.layout.stretches.lot.shape[1]
    return {
        "is_chain": answer.resolved.is_chain,
        "copies": answer.resolved.scheme.copies,
        "strands": strands,
        "need": answer.bobbins_needed,
        "thing": thing_of_ply(answer),
        "skeins": _skeins(answer),
        **_twist(answer),
        "kept_back": [at for at, lot in enumerate(answer.plan.lots) if lot.reserve_g],
        "points": points,
        "points_left_out": left_out,
        "most_points": most_points,
    }


def _twist(answer: Answer) -> dict[str, str]:
    yarn, takes = answer.resolved.yarn, answer.hours
    twist = yarn.ply_twist_tpm
    return {
        "ply_direction": direction(yarn.ply_direction) if says_direction(answer.plan) else "",
        "ply_twist": "" if twist is None else turns(twist),
        "bumps": "" if twist is None else f"{tpi(twist) * yarn.plies:.0f}",
        "plying_takes": "" if takes.plying_h is None else hours_text(takes.plying_h),
    }


def _skeins(answer: Answer) -> list[Json]:
    names, step = answer.plan.names, answer.resolved.step_g
    return [
        {
            "number": skein.number,
            "metre": answer.say.length.number(skein.end_m),
            "weighs": answer.say.on_scale(skein.mass_g, step),
            "gross": "" if skein.gross_g is None else answer.say.on_scale(skein.gross_g, step),
            "length": answer.say.long(skein.end_m - skein.start_m),
            "near": plied_words(names[lot] for lot in skein.near),
            "far": plied_words(names[lot] for lot in skein.far),
        }
        for skein in answer.skeins
    ]


def _later(lengths: Lengths, say: Measures) -> str:
    """Return what is left of the length after rest and wash, in words."""
    parts = (("rested", lengths.rested_m), ("washed", lengths.finished_m))
    return ", ".join(f"{word} {say.long(length)}" for word, length in parts if length is not None)


def _widths(answer: Answer) -> dict[str, str]:
    """Return how wide a column of totals, of portions and of metres has to be, in CSS."""
    step = answer.resolved.step_g
    heaviest = np.nanmax(np.append(answer.layout.planned.weigh_g, answer.heaps.weigh_g))
    longest = {
        "total": totals(answer.as_planned)[0],
        "portion": answer.say.on_scale(heaviest, step),
        "metre": answer.say.length.number(answer.layout.stretches.yarn_m),
    }
    return {column: f"{_wide_mm(text):.1f}mm" for column, text in longest.items()}


def _wide_mm(number: str) -> float:
    """Return how wide a number with its unit is in a bold face with wide digits, 16 pt."""
    digits = max(_FEWEST_DIGITS, sum(map(str.isdigit, number)))
    return digits * _DIGIT_MM + _POINT_MM + _UNIT_MM


def _percent(share: float) -> str:
    return f"{share * 100:.3g}%" if share else ""


def _strip(answer: Answer) -> str:
    """Return the strip as SVG that stands inside HTML; its text is escaped already."""
    from markupsafe import Markup

    more = max(0, answer.layout.stretches.lot.shape[1] - _FEW_PLIES) * _PLY_PX
    svg = strip_svg(answer, _STRIP_WIDTH_PX, _STRIP_HEIGHT_PX + more).decode()
    inside = svg[svg.index("<svg") :].replace(_SVG_NAMESPACE, "", 1)
    return Markup(inside)  # noqa: S704


def _record(lot: Lot) -> list[tuple[str, str]]:
    """Return what is written down of a lot, each with its word; the note comes by itself."""
    return [(word, getattr(lot, key)) for key, word in _RECORDS.items() if getattr(lot, key)]
