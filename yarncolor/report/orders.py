"""Orders as files: numbers, a table, one picture; and all of it in words."""

import json
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from yarncolor.answers.answer import preview
from yarncolor.files import write_all
from yarncolor.phrases import title_of
from yarncolor.pictures.orders import TradeOff, orders_in_strips, trade_off
from yarncolor.pictures.page import under_each_other
from yarncolor.pictures.png import png_bytes
from yarncolor.pictures.ways_on import Shown
from yarncolor.report.csv_json import as_csv
from yarncolor.report.orders_words import (
    SCORE_READ,
    aim_words,
    asked_text,
    names_text,
    now_text,
    orders_alt,
    sure_text,
    worth_text,
)
from yarncolor.report.yarn_as_dict import Json
from yarncolor.search.aims import AIMS, MATCHED, TWINS
from yarncolor.search.found import FoundOrder, FoundOrders

if TYPE_CHECKING:
    from PIL import Image

ORDERS_JSON, ORDERS_PNG, ORDERS_CSV = "orders.json", "orders.png", "orders.csv"
_WIDTH_PX = 1100


def orders_dict(found: FoundOrders) -> Json:
    """Return what was found as plain data: the keys of ``orders.json``."""
    return {
        "exact": found.exact,
        "tried": found.tried,
        "aims": dict(found.question.plan.orders.weights),
        "closed": found.question.closes,
        "now": {**_order(found.now), "allowed": found.now_allowed},
        "best": [_order(one) for one in found.best],
        "front": [_order(one) for one in found.front],
        "range": {aim: list(both) for aim, both in found.ranges.items()},
        "least_smooth": found.least_smooth,
    }


def _order(one: FoundOrder) -> Json:
    return {
        "sequence": list(one.names),
        "left_out": list(one.way.left_out),
        "values": one.values,
        "score": one.score,
    }


def orders_json(found: FoundOrders) -> bytes:
    """Return ``orders.json``: UTF-8, no NaN, the same bytes for the same plan."""
    text = json.dumps(orders_dict(found), ensure_ascii=False, allow_nan=False, indent=1)
    return f"{text}\n".encode()


def orders_csv(found: FoundOrders) -> bytes:
    """Return ``orders.csv``: today's order, the best and the front, a row each, lots in columns."""
    aims, places = tuple(found.now.values), found.question.places
    head = ("which", "score", *aims, "left_out", *(f"place_{at + 1}" for at in range(places)))
    each = [
        ("today", found.now),
        *((f"best {number}", one) for number, one in enumerate(found.best, 1)),
        *((f"front {number}", one) for number, one in enumerate(found.front, 1)),
    ]
    rows = (
        (
            which,
            one.score,
            *one.values.values(),
            ", ".join(one.way.left_out),
            *one.names,
            *[""] * (places - len(one.names)),
        )
        for which, one in each
    )
    return as_csv(head, rows)


def orders_picture(found: FoundOrders, width_px: int = _WIDTH_PX) -> "Image.Image":
    """Return today's and the best orders as strips, under all of them between the first two aims.

    Parameters
    ----------
    found : FoundOrders
        What was found.
    width_px : int
        Of the picture.
    """
    strips = strips_picture(found, width_px)
    aims = list(found.now.values)
    if len(aims) < 2 or found.tried < 2:
        return strips
    return under_each_other([trade_off_picture(found, aims[0], aims[1], width_px)], strips)


def strips_picture(found: FoundOrders, width_px: int = _WIDTH_PX) -> "Image.Image":
    """Return today's and the best orders under each other, on one scale.

    Parameters
    ----------
    found : FoundOrders
        What was found.
    width_px : int
        Of the picture.
    """
    named = [("today", found.now), *((str(at), one) for at, one in enumerate(found.best, 1))]
    return orders_in_strips([_shown(name, one) for name, one in named], width_px)


def _shown(name: str, one: FoundOrder) -> Shown:
    yarn = preview(one.plan)
    long = yarn.say.long(yarn.layout.stretches.yarn_m)
    return Shown(f"{name}: {names_text(one)}", f"{long}; {worth_text(one)}", yarn)


def trade_off_picture(
    found: FoundOrders,
    across: str,
    up: str,
    width_px: int = _WIDTH_PX,
    chosen: FoundOrder | None = None,
) -> "Image.Image":
    """Return every order between two aims, with those that none beats on both.

    Parameters
    ----------
    found : FoundOrders
        What was found.
    across, up : str
        Two of its aims.
    width_px : int
        Of the picture.
    chosen : FoundOrder, optional
        One that is marked.
    """
    two = (across, up)
    rows = [found.question.measures.index(AIMS[aim].measure) for aim in two]
    shown = TradeOff(
        words=(aim_words(across), aim_words(up)),
        told=(_told(across), _told(up)),
        cloud=found.tally.values[rows].T,
        front=_points(found.front_between(across, up), two),
        best=_points(found.best, two),
        now=_points([found.now], two)[0],
        chosen=_points([] if chosen is None else [chosen], two),
        more_is_better=(AIMS[across].more_is_better, AIMS[up].more_is_better),
    )
    return trade_off(shown, width_px)


def _points(orders: Sequence[FoundOrder], aims: tuple[str, str]) -> NDArray[np.float64]:
    return np.array([[one.values[aim] for aim in aims] for one in orders]).reshape(-1, 2)


def _told(aim: str) -> str:
    return "{:.0%}" if AIMS[aim].measure in (MATCHED, TWINS) else "{:.3g}"


def orders_png(found: FoundOrders, width_px: int = _WIDTH_PX) -> bytes:
    """Return ``orders.png``, with a title and a text alternative.

    Parameters
    ----------
    found : FoundOrders
        What was found.
    width_px : int
        Of the picture.
    """
    title = title_of(found.question.plan)
    return png_bytes(orders_picture(found, width_px), title, orders_alt(found))


def orders_contents(found: FoundOrders) -> dict[str, bytes]:
    """Return each file by its name: numbers, table and picture."""
    return {
        ORDERS_JSON: orders_json(found),
        ORDERS_PNG: orders_png(found),
        ORDERS_CSV: orders_csv(found),
    }


def write_orders(found: FoundOrders, folder: str | Path) -> list[Path]:
    """Write numbers, table and picture into a folder, all or none.

    Parameters
    ----------
    found : FoundOrders
        What was found.
    folder : str or Path
        Made where it does not exist; other files in it are left alone.
    """
    return write_all(Path(folder), orders_contents(found))


def orders_text(found: FoundOrders) -> str:
    """Return what was looked for, how sure it is, today's order and the best, for a terminal."""
    title = title_of(found.question.plan)
    lines = [title, asked_text(found), sure_text(found), SCORE_READ, ""]
    lines += [f"today: {names_text(found.now)}", f"    {now_text(found)}"]
    for number, one in enumerate(found.best, 1):
        lines += [f"{number}: {names_text(one)}", f"    {worth_text(one)}."]
    return "\n".join(lines) + "\n"
