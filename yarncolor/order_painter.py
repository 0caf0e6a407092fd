"""The kernel's side of the painter: confirms moves, sends scenes, frames and tables ahead."""

from typing import Any

import numpy as np

from yarncolor.defaults import WOUND_OFF
from yarncolor.dragging import (
    YARN_MM,
    Scenes,
    Tables,
    ahead,
    packed_scene,
    scenes_of,
    shades_of,
    strip_of,
    table_of,
)
from yarncolor.editor import Editor
from yarncolor.errors import PlanError
from yarncolor.frames import Frame, frame
from yarncolor.live import Live, module
from yarncolor.looking import lots_between
from yarncolor.strip_layout import in_words
from yarncolor.strips import label_ink


class OrderPainter(Live):
    """Chips, sliders and pictures of one editor's order, painted in the browser.

    Parameters
    ----------
    editor : Editor
        The plan being worked on; what other benches do to it is shown as well.
    """

    _esm = module("gather", "order_painter")["_esm"]
    _css = module("gather", "order_painter")["_css"]

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor, self.said = editor, ""
        self.from_m: float | None = None
        self._scenes: Scenes | None = None
        self._turn, self._busy, self._heard = 0, False, False
        self.frame = frame(editor)
        editor.watch(self._on_watched)

    def __repr__(self) -> str:
        places = len(self.editor.entries)
        return f"A bench to drag the order of {places} places; it needs a live notebook."

    def say(self, words: str) -> None:
        """Show a line above the chips."""
        self.said = words
        self._show(None)

    def answer_to(self, content: dict[str, Any], buffers: list) -> None:  # noqa: ARG002
        """Do what the browser asks, and answer with a frame."""
        task = getattr(self, f"_do_{content.get('do')}", None)
        if task is not None:
            task(content)

    def _do_ready(self, _: dict[str, Any]) -> None:
        self._scenes, self._heard = None, True
        self._show(None)
        self._send_ahead(None)

    def _do_move(self, content: dict[str, Any]) -> None:
        moves = [(int(entry), int(place)) for entry, place in content["moves"]]
        self._tried(lambda: self._move(moves), content["serial"])
        self._send_ahead(moves[-1][0] if content["dragging"] else None)

    def _move(self, moves: list[tuple[int, int]]) -> None:
        for entry, place in moves:
            self.editor.move(self.editor.place_of(entry), place)

    def _do_rest(self, _: dict[str, Any]) -> None:
        self._send_ahead(None)

    def _do_hold(self, content: dict[str, Any]) -> None:
        self._done(lambda: self.editor.hold(int(content["entry"]), bool(content["held"])), content)

    def _do_undo(self, content: dict[str, Any]) -> None:
        self._done(self.editor.undo, content)

    def _do_redo(self, content: dict[str, Any]) -> None:
        self._done(self.editor.redo, content)

    def _do_reverse(self, content: dict[str, Any]) -> None:
        self._done(self.editor.reverse, content)

    def _do_turn(self, content: dict[str, Any]) -> None:
        self._done(self.editor.turn_round, content)

    def _do_look(self, content: dict[str, Any]) -> None:
        self.from_m = float(content["metre"])
        self._show(None)
        self.send({"kind": "looked"})

    def _done(self, task: Any, content: dict[str, Any]) -> None:
        self._tried(task, content["serial"])
        self._send_ahead(None)

    def _tried(self, task: Any, serial: int) -> None:
        """Show what a task leads to; where it is refused, say why and show what stands."""
        self._busy = True
        try:
            task()
            self.said = ""
        except PlanError as error:
            self.said = str(error)
        finally:
            self._busy = False
        self.frame = frame(self.editor)
        self._show(serial)

    def _on_watched(self) -> None:
        if not self._busy:
            self.frame, self.said = frame(self.editor), ""
            self._show(None)
            self._send_ahead(None)

    def _show(self, serial: int | None) -> None:
        """Send a frame, and scenes where they are others; nothing before a browser has asked."""
        if not self._heard:
            return
        found = self.frame.answer
        yarn_m = found.layout.stretches.yarn_m
        from_m = min(self._from_m(), max(yarn_m - YARN_MM / 1000, 0.0))
        self._send_scenes(scenes_of(found, from_m))
        self._turn += 1
        told, buffers = told_of(self.frame, self.editor, from_m)
        head = {"kind": "frame", "serial": serial, "turn": self._turn, "said": self.said}
        self.send({**head, **told}, buffers)

    def _from_m(self) -> float:
        """Return where the yarn is looked at: by default where it first shows most colours."""
        if self.from_m is not None:
            return self.from_m
        along = self.frame.answer.layout.stretches
        colours = np.array([len(set(row)) for row in along.lot.tolist()])
        at = int(colours.argmax())
        return float(along.edges_m[at : at + 2].mean())

    def _send_scenes(self, scenes: Scenes) -> None:
        if scenes.same_as(self._scenes):
            return
        self._scenes = scenes
        packed = {name: packed_scene(getattr(scenes, name)) for name in ("yarn", "fabric")}
        heads = [{"name": name, **head} for name, (head, _) in packed.items()]
        buffers = [buffer for _, each in packed.values() for buffer in each]
        self.send({"kind": "scenes", "scenes": heads}, buffers)

    def _send_ahead(self, entry: int | None) -> None:
        moves, tables = ahead(self.editor, entry) if self._heard else ([], None)
        if moves:
            plies = self.frame.answer.layout.stretches.lot.shape[1]
            told, buffers = _table_told(tables, plies)
            self.send(
                {"kind": "ahead", "serial": self._turn, "moves": moves, "table": told}, buffers
            )


def told_of(shown: Frame, editor: Editor, from_m: float) -> tuple[dict[str, Any], list[bytes]]:
    """Return a frame for the browser, and the buffers of its table.

    Parameters
    ----------
    shown : Frame
        What is shown.
    editor : Editor
        Whose order and steps.
    from_m : float
        Metre at the left edge of the yarn's picture.
    """
    found = shown.answer
    plan, along = found.plan, found.layout.stretches
    lots = [plan.names.index(name) for name in editor.entry_names()]
    table, buffers = _table_told(table_of(found), along.lot.shape[1])
    seen = lots_between(found, from_m, from_m + YARN_MM / 1000)
    yarn = f"{YARN_MM:.0f} mm of the yarn, from {from_m:.1f} m on"
    fabric = f"Knitted, the yarn from its beginning: {in_words(found.layout)}"
    told = {
        "entries": list(editor.entries),
        "held": sorted(editor.held),
        "names": list(editor.entry_names()),
        "lots": lots,
        "masses": [plan.lots[lot].mass_g for lot in lots],
        "lot_names": list(plan.names),
        "colours": list(found.palette.srgb),
        "inks": [label_ink(colour) for colour in found.palette.srgb],
        "undo": editor.can_undo,
        "redo": editor.can_redo,
        "ends": _ends(found.settled.wound_off),
        "from_m": from_m,
        "alts": {
            "strip": shown.alt,
            "yarn": f"{yarn}. Colours: {', '.join(plan.names[lot] for lot in seen)}.",
            "fabric": f"{fabric}.",
        },
        "captions": {"yarn": yarn, "fabric": fabric},
        "html": {
            "yarn": shown.yarn_html,
            "advice": shown.advice_html,
            "weigh": shown.weigh_out_html,
        },
        "shades": shades_of(found),
        "strip": strip_of(found),
        "table": table,
    }
    return told, buffers


def _table_told(tables: Tables, plies: int) -> tuple[dict[str, Any], list[bytes]]:
    told = {"counts": tables.counts, "yarn_m": tables.yarn_m, "plies": plies}
    return told, [tables.ticks.tobytes(), tables.lot.tobytes()]


def _ends(wound_off: np.ndarray) -> list[str]:
    """Return what stands at both ends of the order: what is spun, and what is plied, first."""
    turned = np.atleast_1d(np.asarray(wound_off if wound_off is not None else WOUND_OFF)) % 2
    if turned.all():
        return ["spun first, plied first", "spun last, plied last"]
    if turned.any():
        return ["spun first", "spun last"]
    return ["spun first, plied last", "spun last, plied first"]
