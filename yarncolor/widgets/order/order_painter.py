"""The kernel's side of the painter: confirms moves, sends scenes, frames and tables ahead."""

from collections.abc import Callable

from yarncolor.answers.answer import Answer, Preview
from yarncolor.colour.srgb import label_ink
from yarncolor.defaults import plies_of
from yarncolor.editing.editor import Editor
from yarncolor.errors import PlanError, one_line
from yarncolor.layout.layout import in_words
from yarncolor.layout.stretches import Stretches
from yarncolor.layout.winding import FIRST_FIRST, LAST_FIRST, end_of_all
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.pictures.fabric_pictures import shown_as_knitted
from yarncolor.pictures.shown_part import last_m, lots_between, opening_m
from yarncolor.report.show.plan import show_advice, show_weigh_out, show_yarn
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.order.order_frames import (
    MOST_AHEAD,
    YARN_MM,
    Scenes,
    StretchTables,
    look_ahead,
    numbers_of,
    packed_scene,
    reading_of,
    scenes_of,
    shades_of,
    strip_of,
    table_now,
    table_of,
)
from yarncolor.widgets.protocol.asks import Ask, AskInTurn
from yarncolor.widgets.protocol.messages import HEARD
from yarncolor.widgets.protocol.order import (
    Grab,
    Hold,
    Look,
    Move,
    OrderAhead,
    OrderFrame,
    OrderLooked,
    OrderMoved,
    OrderScenes,
    OrderWords,
    Pictures,
    Rest,
    SceneHead,
    TableHead,
    ToldWords,
    YarnWords,
)


class OrderPainter(MessageWidget):
    """Chips, sliders and pictures of one editor's order, painted in the browser.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("order/order_painter")
    hears = HEARD["order"]

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor, self.said = editor, ""
        self.from_m: float | None = None
        self._scenes: Scenes | None = None
        self._turn, self._busy, self._heard = 0, False, False
        self._numbers = numbers_of(editor)
        self._seen: object = None
        self.on_told: Callable[[Answer], None] = lambda _: None

    def __repr__(self) -> str:
        places = len(self.editor.entries)
        return f"A bench to drag the order of {places} places; it needs a live notebook."

    def say(self, words: str) -> None:
        """Show a line above the chips."""
        self.said = words
        self._show(None)

    def on_ready(self, _: Ask) -> None:
        """Show everything to a page that is there now."""
        self._scenes, self._heard = None, True
        self._show(None)
        self._send_ahead(None)

    def on_move(self, message: Move) -> None:
        """Confirm moves with nothing but the new table: words follow when the fingers rest."""
        moves = [(int(entry), int(place)) for entry, place in message["moves"]]
        if not self._tried(lambda: self._move(moves)):
            self._show(message["serial"])
            return
        tables = table_now(self.editor, self._numbers)
        table, buffers = _table_head(tables, self._plies)
        moved: OrderMoved = {
            "kind": "moved",
            "serial": message["serial"],
            "entries": list(self.editor.entries),
            "table": table,
            "more": self._numbers.more(),
        }
        self.send(moved, buffers)

    def _move(self, moves: list[tuple[int, int]]) -> None:
        for entry, place in moves:
            self.editor.move(self.editor.place_of(entry), place)

    def on_rest(self, message: Rest) -> None:
        """Send numbers and words; with many places, tables of the lot that was moved last."""
        self._show(None)
        many = len(self.editor.entries) > MOST_AHEAD
        self._send_ahead(message.get("entry") if many else None)

    def on_grab(self, message: Grab) -> None:
        """Send the tables of a lot that is in hand."""
        self._send_ahead(int(message["entry"]))

    def on_hold(self, message: Hold) -> None:
        """Keep a lot in its place, or let it go."""
        self._done(lambda: self.editor.hold(int(message["entry"]), bool(message["held"])), message)

    def on_undo(self, _: Ask) -> None:
        """Take a step back."""
        self.editor.undo()
        self.refresh()

    def on_redo(self, _: Ask) -> None:
        """Take a step on again."""
        self.editor.redo()
        self.refresh()

    def on_reverse(self, message: AskInTurn) -> None:
        """Turn the order round."""
        self._done(self.editor.reverse, message)

    def on_turn(self, message: AskInTurn) -> None:
        """Put the first lot last."""
        self._done(self.editor.turn_round, message)

    def on_close(self, message: AskInTurn) -> None:
        """End on the first lot too, or no more."""
        self._done(self.editor.close, message)

    def on_look(self, message: Look) -> None:
        """Show the yarn from another metre on; nothing else changes."""
        self.from_m = float(message["metre"])
        found = self.editor.preview
        from_m = self._from_m(found.layout.stretches)
        self._send_scenes(scenes_of(found, from_m))
        looked: OrderLooked = {"kind": "looked", "from_m": from_m, **yarn_words(found, from_m)}
        self.send(looked)

    def _done(self, task: Callable[[], None], message: AskInTurn) -> None:
        self._tried(task)
        self._show(message["serial"])
        self._send_ahead(None)

    def _tried(self, task: Callable[[], None]) -> bool:
        """Do what was asked and return True; where it is refused, keep why."""
        self._busy, self.said = True, ""
        try:
            task()
        except PlanError as error:
            self.said = one_line(error)
        finally:
            self._busy = False
        return not self.said

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it."""
        if self._seen is not self.editor.revision and not self._busy:
            self.said = ""
            self._show(None)
            self._send_ahead(None)

    def _show(self, serial: int | None) -> None:
        """Send the pictures, then the words; nothing before a browser has asked."""
        self._seen = self.editor.revision
        if not self._heard:
            return
        found = self.editor.preview
        from_m = self._from_m(found.layout.stretches)
        self._send_scenes(scenes_of(found, from_m))
        self._turn += 1
        self._numbers = numbers_of(self.editor)
        pictures, buffers = frame_payload(found, self.editor, from_m)
        frame: OrderFrame = {"kind": "frame", "serial": serial, "turn": self._turn, **pictures}
        self.send(frame, buffers)
        told = text_payload(self.editor.answer, from_m)
        words: OrderWords = {"kind": "words", "said": self.said, **told}
        self.send(words)
        self.on_told(self.editor.answer)

    def _from_m(self, along: Stretches) -> float:
        """Return where the yarn is looked at: by default where it first shows most colours."""
        if self.from_m is None:
            return opening_m(along, YARN_MM)
        return min(self.from_m, last_m(along, YARN_MM))

    def _send_scenes(self, scenes: Scenes) -> None:
        if scenes.same_as(self._scenes):
            return
        self._scenes = scenes
        packed = {name: packed_scene(getattr(scenes, name)) for name in ("yarn", "fabric")}
        heads: list[SceneHead] = [{"name": name, **head} for name, (head, _) in packed.items()]
        buffers = [buffer for _, each in packed.values() for buffer in each]
        told: OrderScenes = {"kind": "scenes", "scenes": heads}
        self.send(told, buffers)

    def _send_ahead(self, entry: int | None) -> None:
        if not self._heard:
            return
        moves, tables = look_ahead(self.editor, self._numbers, entry)
        if moves:
            head, buffers = _table_head(tables, self._plies)
            ahead: OrderAhead = {
                "kind": "ahead",
                "turn": self._turn,
                "moves": moves,
                "table": head,
                "more": self._numbers.more(),
            }
            self.send(ahead, buffers)

    @property
    def _plies(self) -> int:
        return plies_of(self.editor.plan.scheme)


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
    table, buffers = _table_head(table_of(along), along.lot.shape[1])
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


def text_payload(found: Answer, from_m: float) -> ToldWords:
    """Return captions, text alternatives and fragments, for the browser.

    Parameters
    ----------
    found : Answer
        What follows from the plan.
    from_m : float
        Metre at the left edge of the yarn's picture.
    """
    yarn = yarn_words(found, from_m)
    way = "top down" if found.plan.fabric.kind == "triangle" else "bottom up"
    _, times = shown_as_knitted(found)
    small = f"the whole yarn in small, each stitch for {times}"
    what = small if times > 1 else "the yarn from its beginning"
    fabric = f"Knitted from the {way}, {what}: {in_words(found.layout)}"
    return {
        "alts": {"strip": strip_alt(found), "yarn": yarn["alt"], "fabric": f"{fabric}."},
        "captions": {"yarn": yarn["caption"], "fabric": fabric},
        "html": {
            "yarn": show_yarn(found).html,
            "advice": show_advice(found).html,
            "weigh": show_weigh_out(found).html,
        },
    }


def yarn_words(found: Preview, from_m: float) -> YarnWords:
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
    caption = f"{YARN_MM:.0f} mm of the yarn, from {from_m:.1f} m on"
    return {"caption": caption, "alt": f"{caption}. Colours: {names}."}


def _table_head(tables: StretchTables, plies: int) -> tuple[TableHead, list[bytes]]:
    head: TableHead = {"counts": tables.counts, "yarn_m": tables.yarn_m, "plies": plies}
    return head, [tables.ticks.tobytes(), tables.lot.tobytes()]


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
