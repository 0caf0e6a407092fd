"""The page of a yarn, and that of several: whole in one file, without script or network."""

import json
from base64 import b64encode
from collections.abc import Sequence
from functools import lru_cache
from itertools import compress
from pathlib import Path
from typing import Any

from yarncolor.phrases import join_words
from yarncolor.pictures.png import png_bytes
from yarncolor.pictures.ways_on import Shown
from yarncolor.pictures.yarns_made import READ_SO, as_made, yarn_made, yarns_made
from yarncolor.report.one_file import fingerprint, templates
from yarncolor.report.record.words import (
    SEVERAL_HEAD,
    days_text,
    guessed_text,
    is_of_the_wheel,
    left_over_head,
    measure_row,
    measure_rows,
    over_text,
    several_row,
    spun_text,
    units_text,
    verdict_text,
)
from yarncolor.report.record.yarns import ALL_YARNS, Yarn, said_alike, yarns_data

RECORD_JSON = "record.json"
WIDTH_PX = 1100


def record_contents(yarns: Sequence[Yarn]) -> dict[str, bytes]:
    """Return each file of a record by its name: a page for each yarn, numbers, and all of them.

    Parameters
    ----------
    yarns : sequence of Yarn
        One at least; of several there is a page and a picture of all, too.
    """
    pages = {f"{yarn.stem}.html": page(yarn) for yarn in yarns}
    if len(yarns) > 1:
        png = yarns_png(yarns)
        pages |= {f"{ALL_YARNS}.html": several(yarns, png), f"{ALL_YARNS}.png": png}
    return {**pages, RECORD_JSON: record_json(yarns)}


def record_json(yarns: Sequence[Yarn]) -> bytes:
    """Return ``record.json``: UTF-8, no NaN, the same bytes for the same plans."""
    data = yarns_data(yarns)
    return f"{json.dumps(data, ensure_ascii=False, allow_nan=False, indent=1)}\n".encode()


def page(yarn: Yarn) -> bytes:
    """Return the page of a yarn; every text of its plan is escaped."""
    found, say = yarn.record, yarn.say
    is_known = [one.came_true is not None or is_of_the_wheel(one) for one in found.advice]
    known = list(compress(found.advice, is_known))
    head, *rows = measure_rows(found, say)
    return _rendered(
        "page.html.j2",
        found=found,
        lots=found.lots,
        mass=say.mass,
        when=days_text(found.days),
        head=head,
        rows=rows,
        spun=spun_text(found),
        guessed=guessed_text(found),
        notes_head=notes_head(yarn),
        over_head=left_over_head(found),
        over=[over_text(left, say) for left in found.left_over],
        known=[(one.text, verdict_text(one, say), one.came_true) for one in known],
        unknown=[one.text for one, tells in zip(found.advice, is_known, strict=True) if not tells],
        picture=_as_url("image/png", yarn_png(yarn)),
        picture_alt=yarn_alt(yarn),
        photo=_as_url("image/jpeg", yarn.photo) if yarn.photo else "",
    )


_NOTES = (
    *(("fibre", "fibre"), ("dye", "dye"), ("mordant", "mordant"), ("bath", "bath")),
    *(("dyed_on", "dyed on"), ("source", "from"), ("note", "note")),
)


def notes_head(yarn: Yarn) -> list[tuple[str, str]]:
    """Return key and heading of every column of the dye notes that says something."""
    lots = yarn.record.lots
    return [(key, head) for key, head in _NOTES if any(getattr(lot, key) for lot in lots)]


def several(yarns: Sequence[Yarn], png: bytes) -> bytes:
    """Return the page of several yarns: one table, one picture on one scale.

    Parameters
    ----------
    yarns : sequence of Yarn
        One at least.
    png : bytes
        Their picture.
    """
    alike = said_alike(yarns)
    rows = [(f"{yarn.stem}.html", several_row(yarn.record, yarn.say)) for yarn in alike]
    return _rendered(
        "several.html.j2",
        lots=(),
        count=len(yarns),
        units=units_text(yarns),
        head=SEVERAL_HEAD,
        rows=rows,
        picture=_as_url("image/png", png),
        picture_alt=yarns_alt(yarns),
    )


def yarn_png(yarn: Yarn) -> bytes:
    """Return the picture of a yarn: planned, spun and made, on one scale."""
    return png_bytes(yarn_made(yarn.answer, WIDTH_PX), yarn.name, yarn_alt(yarn))


def yarns_png(yarns: Sequence[Yarn], width_px: int = WIDTH_PX) -> bytes:
    """Return the picture of several yarns on one scale.

    Parameters
    ----------
    yarns : sequence of Yarn
        One at least.
    width_px : int
        Of the picture.
    """
    shown = shown_alike(yarns)
    return png_bytes(yarns_made(shown, width_px), "Yarns side by side", yarns_alt(yarns))


def shown_alike(yarns: Sequence[Yarn]) -> list[Shown]:
    """Return several yarns as their picture shows them, all in one unit."""
    return [
        Shown(yarn.name, several_row(yarn.record, yarn.say)[1], as_made(yarn.answer))
        for yarn in said_alike(yarns)
    ]


def yarns_alt(yarns: Sequence[Yarn]) -> str:
    """Return the picture of several yarns in words."""
    each = [f"{shown.name}, {shown.words}" for shown in shown_alike(yarns)]
    return f"{'; '.join(each)}. {_read_so(said_alike(yarns)[0])}"


def yarn_alt(yarn: Yarn) -> str:
    """Return the picture of a yarn in words: how long it is, by each way that it is known."""
    length = next(one for one in yarn.record.measures if one.name == "length_m")
    said = measure_row(length, yarn.say)[1:4]
    known = zip(("as planned", "as spun", "as it came out"), said, strict=True)
    values = (length.planned, length.spun, length.made)
    told = [
        f"{words} {text}" for (words, text), it in zip(known, values, strict=True) if it is not None
    ]
    return f"{yarn.name}: {join_words(told)} of yarn. {_read_so(yarn)}"


def _read_so(yarn: Yarn) -> str:
    return READ_SO.format(metre=yarn.say.length.name)


def _as_url(kind: str, data: bytes) -> str:
    return f"data:{kind};base64,{b64encode(data).decode()}"


def _rendered(template: str, **facts: Any) -> bytes:
    """Return a page whose only style is its own, by its fingerprint; colours of lots among it."""
    from yarncolor import __version__

    style = _style() + "".join(
        f".lot-{number} {{ background: {lot.srgb}; }}\n" for number, lot in enumerate(facts["lots"])
    )
    return (
        templates("yarncolor.report.record")
        .get_template(template)
        .render(version=__version__, style=style, style_hash=fingerprint(style), **facts)
        .encode()
    )


@lru_cache(maxsize=1)
def _style() -> str:
    return f"\n{(Path(__file__).parent / 'record.css').read_text(encoding='utf-8')}"
