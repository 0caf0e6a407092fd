"""What the painter's browser is told of an order: all that is painted, captions, fragments."""

from yarncolor.answers.answer import Answer, Preview
from yarncolor.answers.guessed_thickness import about
from yarncolor.colour.srgb import label_ink
from yarncolor.editing.editor import Editor
from yarncolor.layout.layout import in_words
from yarncolor.layout.winding import FIRST_FIRST, LAST_FIRST, end_of_all
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.as_knitted import piece_shown, shown_words
from yarncolor.pictures.shown_part import lots_between
from yarncolor.report.show.plan import show_advice, show_weigh_out, show_yarn
from yarncolor.widgets.order.order_frames import (
    YARN_MM,
    StretchTables,
    reading_of,
    shades_of,
    strip_of,
    table_of,
)
from yarncolor.widgets.protocol.order import Pictures, PictureWords, TableHead, ToldWords

_ENDS = {
    LAST_FIRST: ("spun first, plied last", "spun last, plied first"),
    FIRST_FIRST: ("spun first, plied first", "spun last, plied last"),
    None: ("spun first", "spun last"),
}
"""What stands at both ends of the order, by which end of the singles comes off first."""

_TURNING = {
    LAST_FIRST: "Below, the yarn begins with what is spun last: that comes off a bobbin first.",
    FIRST_FIRST: "Below, the yarn begins with what is spun first: the bobbins are wound off.",
    None: "Below, some plies begin with what is spun first, others with what is spun last: "
    "not all bobbins are wound off alike.",
}
"""How the strip runs against the order above it, by which end of the singles comes off first."""


def frame_payload(found: Preview, editor: Editor, from_m: float) -> tuple[Pictures, list[bytes]]:
    """Return the order and all that is painted, for the browser, and the buffers of its table.

    Parameters
    ----------
    found : Preview
        The plan laid out.
    editor : Editor
        Whose order and steps.
    from_m : float
        Metre at the left edge of the yarn's picture.
    """
    plan, along = found.plan, found.layout.stretches
    lots = [plan.names.index(name) for name in editor.entry_names()]
    table, buffers = table_payload(table_of(along), along.lot.shape[1])
    first_off = end_of_all(found.resolved.wound_off)
    pictures: Pictures = {
        "entries": list(editor.entries),
        "held": sorted(editor.held),
        "closed": editor.is_closed,
        "names": list(editor.entry_names()),
        "lots": lots,
        "masses": [plan.lots[lot].mass_g for lot in lots],
        "lot_names": list(plan.names),
        "colours": list(found.palette.srgb),
        "inks": [label_ink(colour) for colour in found.palette.srgb],
        "ends": list(_ENDS[first_off]),
        "turning": _TURNING[first_off],
        "from_m": from_m,
        "shades": shades_of(found),
        "strip": strip_of(found),
        "reading": reading_of(found),
        "table": table,
    }
    return pictures, buffers


def text_payload(found: Answer, from_m: float, mark_m: float | None = None) -> ToldWords:
    """Return captions, text alternatives and fragments, for the browser.

    Parameters
    ----------
    found : Answer
        What follows from the plan.
    from_m : float
        Metre at the left edge of the yarn's picture.
    mark_m : float, optional
        Metre that the fabric begins with, where only a part of the yarn is knitted.
    """
    yarn, fabric = yarn_words(found, from_m), fabric_words(found, mark_m)
    return {
        "alts": {"strip": strip_alt(found), "yarn": yarn["alt"], "fabric": fabric["alt"]},
        "captions": {"yarn": yarn["caption"], "fabric": fabric["caption"]},
        "html": {
            "yarn": show_yarn(found, explained=True).html,
            "advice": show_advice(found, explained=True).html,
            "weigh": show_weigh_out(found).html,
        },
    }


def fabric_words(found: Preview, mark_m: float | None) -> PictureWords:
    """Return caption and text alternative of the fabric: which part of the yarn it shows.

    Parameters
    ----------
    found : Preview
        The plan laid out, in its colours.
    mark_m : float, optional
        Metre that it begins with, where only a part of the yarn is knitted.
    """
    knit, _, from_m, times = piece_shown(found, mark_m)
    way = "top down" if knit.kind == "triangle" else "bottom up"
    caption = f"Knitted from the {way}: {shown_words(found, knit, from_m, times)}"
    return {"caption": caption, "alt": f"{caption}. The yarn: {in_words(found.layout)}."}


def yarn_words(found: Preview, from_m: float) -> PictureWords:
    """Return caption and text alternative of the yarn from a metre on.

    Parameters
    ----------
    found : Preview
        The plan laid out, in its colours.
    from_m : float
        Where the length shown begins.
    """
    seen = lots_between(found, from_m, from_m + YARN_MM / 1000)
    names = ", ".join(found.plan.names[lot] for lot in seen)
    begin = f"{about(found)}{found.say.length(from_m)}"
    caption = f"{found.say.thickness(YARN_MM, 0)} of the yarn, from {begin} on"
    return {"caption": caption, "alt": f"{caption}. Colours: {names}."}


def table_payload(tables: StretchTables, plies: int) -> tuple[TableHead, list[bytes]]:
    """Return tables of stretches for the browser: what is in them, and their buffers.

    Parameters
    ----------
    tables : StretchTables
        To be sent.
    plies : int
        Of each yarn.
    """
    head: TableHead = {"counts": tables.counts, "yarn_m": tables.yarn_m, "plies": plies}
    return head, [tables.ticks.tobytes(), tables.lot.tobytes()]
