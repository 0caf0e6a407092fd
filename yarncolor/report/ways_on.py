"""The ways to go on as files: numbers, one picture, and the card of what is to spin."""

import json
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from yarncolor.answers.answer import Answer, Preview, answer_of
from yarncolor.answers.choice import Choice
from yarncolor.answers.choices import Replan
from yarncolor.answers.guessed_thickness import metres_told
from yarncolor.answers.rescues import rescued_yarns
from yarncolor.answers.taking import taken
from yarncolor.files import write_all
from yarncolor.layout.layout import layout
from yarncolor.layout.resolved import resolve
from yarncolor.phrases import title_of
from yarncolor.pictures.png import png_bytes
from yarncolor.pictures.ways_on import READ_SO, Shown, ways_on
from yarncolor.report.card.card import card_html
from yarncolor.report.hands_words import hands_text
from yarncolor.report.rescues import RESCUES_PNG, rescue_dict, rescues_png
from yarncolor.report.rescues_text import rescues_text
from yarncolor.report.ways_on_text import (
    matters_text,
    possible_text,
    reason_text,
    way_words,
    worth_text,
)
from yarncolor.report.yarn_as_dict import Json
from yarncolor.units import m_per_100g

if TYPE_CHECKING:
    from PIL import Image

REPLAN_JSON, REPLAN_PNG, TO_SPIN_CARD = "replan.json", "replan.png", "to-spin.html"
_WIDTH_PX = 1100


def replan_dict(found: Replan) -> Json:
    """Return every way to go on as plain data: the keys of ``replan.json``."""
    one = found.matters
    return {
        "matters": {
            "text": matters_text(found),
            "ply": None if one.ply is None else one.ply + 1,
            "surplus_m": one.surplus_m,
            "shift_m": one.shift_m,
            "moved": one.moved,
            "changes": one.changes,
        },
        "choices": [_choice(choice) for choice in found.choices],
        "recommended": found.recommended.name,
        "reason": reason_text(found),
        "rescues": [rescue_dict(found.answer, yarn) for yarn in rescued_yarns(found.answer)],
    }


def _choice(choice: Choice) -> Json:
    names, tex = choice.laid.resolved.plan.names, choice.grist_instead_tex
    return {
        "name": choice.name,
        "possible": choice.possible or False,
        "factors": [None if np.isnan(factor) else factor for factor in choice.factors.tolist()],
        "rows": _rows(choice),
        "heaps": _heaps(choice),
        "grist_instead": [
            {"ply": int(k) + 1, "m_per_100g": float(m_per_100g(tex[k]))}
            for k in np.flatnonzero(~np.isnan(tex))
        ],
        "pull_off": [
            {"ply": int(k) + 1, "length_m": float(choice.pull_off_m[k])}
            for k in np.flatnonzero(choice.pull_off_m)
        ],
        "yarn_m": choice.yarn_m,
        "ends_first": choice.ends_first + 1,
        "shift_m": choice.shift_m,
        "as_planned": choice.as_planned,
        "matched": choice.matched,
        "more_g": _of_lots(choice.more_g, names),
        "missing": _of_lots(choice.missing_g, names),
        "short": [
            {"lot": names[one.lot], "mass_g": one.missing_g}
            for one in choice.short
            if one.missing_g
        ],
    }


def _rows(choice: Choice) -> list[Json]:
    names, rows = choice.laid.resolved.plan.names, choice.rows
    own = rows.portions
    return [
        {
            "ply": int(own.ply[at]) + 1,
            "row": int(rows.row[at]) or None,
            "lot": names[own.lot[at]],
            "mass_g": float(own.mass_g[at]),
            "weigh_g": None if np.isnan(own.weigh_g[at]) else float(own.weigh_g[at]),
        }
        for at in range(len(own))
    ]


def _heaps(choice: Choice) -> list[Json]:
    names, heaps = choice.laid.resolved.plan.names, choice.rows.heaps
    pieces = np.bincount(heaps.group[heaps.group >= 0], minlength=len(heaps.ply))
    return [
        {
            "ply": int(heaps.ply[at]) + 1,
            "lot": names[heaps.lot[at]],
            "weigh_g": float(heaps.weigh_g[at]) or None,
            "pieces": int(pieces[at]),
        }
        for at in range(len(heaps.ply))
    ]


def _of_lots(mass_g: np.ndarray, names: tuple[str, ...]) -> list[Json]:
    lots = np.flatnonzero(mass_g)
    return [{"lot": names[lot], "mass_g": float(mass_g[lot])} for lot in lots]


def replan_json(found: Replan) -> bytes:
    """Return ``replan.json``: UTF-8, no NaN, the same bytes for the same plan."""
    text = json.dumps(replan_dict(found), ensure_ascii=False, allow_nan=False, indent=1)
    return f"{text}\n".encode()


def ways_picture(found: Replan, width_px: int = _WIDTH_PX) -> "Image.Image":
    """Return the yarn as planned, as it stands and under each way to go on, on one scale.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    width_px : int
        Of the picture.
    """
    colours = found.answer.palette
    planned = Shown(
        "as planned",
        metres_told(found.planned, found.planned.stretches.yarn_m),
        Preview(found.planned, colours),
    )
    ways = [
        Shown(_head(found, choice), _words(found, choice), Preview(choice.laid, colours))
        for choice in found.choices
    ]
    return ways_on(planned, ways, width_px)


def _head(found: Replan, choice: Choice) -> str:
    name = way_words(found, choice)
    stands = "as it stands: " if choice is found.choices[0] else ""
    return f"{stands}{name}{' (best)' if choice is found.recommended else ''}"


def _words(found: Replan, choice: Choice) -> str:
    if choice is found.choices[0]:
        return worth_text(found, choice)
    return f"{worth_text(found, choice)}; {possible_text(found, choice)}"


def ways_alt(found: Replan) -> str:
    """Return the picture in words."""
    each = ". ".join(f"{_head(found, one)}: {_words(found, one)}" for one in found.choices)
    long = metres_told(found.planned, found.planned.stretches.yarn_m)
    read_so = READ_SO.format(metre=found.planned.say.length.name)
    return f"As planned, {long} of yarn. {each}. {read_so}"


def replan_png(found: Replan, width_px: int = _WIDTH_PX) -> bytes:
    """Return ``replan.png``, with a title and a text alternative.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    width_px : int
        Of the picture.
    """
    title = title_of(found.answer.plan)
    return png_bytes(ways_picture(found, width_px), title, ways_alt(found))


def answer_under(found: Replan, choice: Choice) -> Answer:
    """Return what follows from the plan that a choice makes.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice
        One of them.
    """
    return answer_of(layout(resolve(taken(found.answer, choice))))


def replan_contents(found: Replan, choice: Choice | None = None) -> dict[str, bytes]:
    """Return each file by its name: numbers, pictures, and the card of what is to spin.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice, optional
        Whose card it is; the recommended one where nothing is said.
    """
    rescues = rescues_png(found.answer, rescued_yarns(found.answer))
    return {
        REPLAN_JSON: replan_json(found),
        REPLAN_PNG: replan_png(found),
        **({RESCUES_PNG: rescues} if rescues else {}),
        TO_SPIN_CARD: card_html(answer_under(found, choice or found.recommended)),
    }


def write_replan(found: Replan, folder: str | Path, choice: Choice | None = None) -> list[Path]:
    """Write numbers, picture and the card of what is to spin into a folder, all or none.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    folder : str or Path
        Made where it does not exist; other files in it are left alone.
    choice : Choice, optional
        Whose card it is; the recommended one where nothing is said.
    """
    return write_all(Path(folder), replan_contents(found, choice))


def replan_text(found: Replan) -> str:
    """Return whether it matters, what is best, and every way to go on, for a terminal."""
    title = title_of(found.answer.plan)
    blocks = [f"{title}\n{matters_text(found)}\n{reason_text(found)}"]
    for choice in found.choices:
        lines = (worth_text(found, choice), hands_text(found, choice), possible_text(found, choice))
        told = "\n".join(f"    {line}" for line in lines)
        blocks.append(f"{_head(found, choice)} ({choice.name})\n{told}")
    yarns = rescued_yarns(found.answer)
    blocks += [rescues_text(found.answer, yarns).rstrip()] if yarns else []
    return "\n\n".join(blocks) + "\n"
