"""The kernel's side of the painter: confirms moves, sends scenes, frames and tables ahead."""

from collections.abc import Callable

from yarncolor.answers.answer import Answer
from yarncolor.defaults import plies_of
from yarncolor.editing.editor import Editor
from yarncolor.editing.step_words import stays_beside_words
from yarncolor.errors import PlanError
from yarncolor.layout.stretches import Stretches
from yarncolor.pictures.shown_part import last_m, opening_m
from yarncolor.widgets.choosing import Quiet, refused
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.order.order_frames import (
    MOST_AHEAD,
    YARN_MM,
    Scenes,
    look_ahead,
    numbers_of,
    scenes_of,
    table_now,
)
from yarncolor.widgets.order.order_payload import (
    fabric_words,
    frame_payload,
    table_payload,
    text_payload,
    yarn_words,
)
from yarncolor.widgets.order.packed_scenes import packed_scene
from yarncolor.widgets.protocol.asks import Ask, AskInTurn
from yarncolor.widgets.protocol.messages import HEARD
from yarncolor.widgets.protocol.order import (
    Grab,
    Hold,
    Knit,
    Look,
    Move,
    OfTurn,
    OrderAhead,
    OrderFrame,
    OrderLooked,
    OrderMoved,
    OrderScenes,
    OrderWords,
    Rest,
    SceneHead,
)

_OTHER_LOTS = "The lots of the order changed meanwhile; nothing was moved or kept."


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
        self.knits_part = False
        self._scenes: Scenes | None = None
        self._turn, self._busy, self._heard = 0, Quiet(), False
        self._names, self._named_in_turn = editor.entry_names(), 0
        self._numbers = numbers_of(editor)
        self._seen: object = None
        self._moved_to: object = None
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

    def on_move(self, message: Move) -> None:
        """Confirm moves with nothing but the new table: words follow when the fingers rest."""
        moves = [(int(entry), int(place)) for entry, place in message["moves"]]
        if self._is_of_other_lots(message):
            return
        if not self._tried(lambda: self._move(moves)):
            self._show(message["serial"])
            return
        tables = table_now(self.editor, self._numbers)
        table, buffers = table_payload(tables, self._plies)
        moved: OrderMoved = {
            "kind": "moved",
            "serial": message["serial"],
            "entries": list(self.editor.entries),
            "table": table,
            "more": self._numbers.more(),
        }
        self.send(moved, buffers)
        self._moved_to = self.editor.revision

    def _move(self, moves: list[tuple[int, int]]) -> None:
        for entry, place in moves:
            self.editor.move(self.editor.place_of(entry), place)

    def on_rest(self, message: Rest) -> None:
        """Send numbers and words; with many places, tables of the lot that was moved last."""
        many = len(self.editor.entries) > MOST_AHEAD
        self._show(None, message.get("entry") if many else None)

    def on_grab(self, message: Grab) -> None:
        """Send the tables of a lot that is in hand."""
        self._send_ahead(int(message["entry"]))

    def on_hold(self, message: Hold) -> None:
        """Keep a lot in its place, or let it go."""
        entry, held = int(message["entry"]), bool(message["held"])
        if not self._is_of_other_lots(message):
            self._done(lambda: self.editor.hold(entry, held), message)

    def _is_of_other_lots(self, message: OfTurn) -> bool:
        """Return whether what is asked is of lots that are others by now; then show these."""
        if message["turn"] >= self._named_in_turn:
            return False
        self.said = _OTHER_LOTS
        self._show(message["serial"])
        return True

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
        self.editor.mark_m = float(message["metre"])
        self._look()

    def on_knit(self, message: Knit) -> None:
        """Knit only a part of the yarn, from where one looks, or all that the plan knits."""
        self.knits_part = bool(message["part"])
        self._look()

    def _look(self) -> None:
        """Send the pictures from where one looks by now, with their words."""
        found = self.editor.preview
        from_m = self._from_m(found.layout.stretches)
        mark_m = self._mark_m(from_m)
        self._send_scenes(scenes_of(found, from_m, mark_m))
        words = {"yarn": yarn_words(found, from_m), "fabric": fabric_words(found, mark_m)}
        looked: OrderLooked = {"kind": "looked", "from_m": from_m, "words": words}
        self.send(looked)

    def _done(self, task: Callable[[], None], message: AskInTurn) -> None:
        self._tried(task)
        self._show(message["serial"])

    def _tried(self, task: Callable[[], None]) -> bool:
        """Do what was asked and return True; where it is refused, keep why."""
        self.said = ""
        try:
            with self._busy:
                task()
        except PlanError as error:
            self.said = refused("order", error)
        return not self.said

    def refresh(self) -> None:
        """Show the plan as it stands, whoever changed it."""
        if self._seen is not self.editor.revision and not self._busy:
            self.said = ""
            self._show(None)

    def _show(self, serial: int | None, entry: int | None = None) -> None:
        """Send the pictures, what moves would make of them, then the words, which take longest.

        Nothing goes before a browser has asked; with an entry, only its moves are sent ahead.
        """
        self._seen = self.editor.revision
        if not self._heard:
            return
        from_m = self._show_pictures(serial)
        self._send_ahead(entry)
        told = text_payload(self.editor.answer, from_m, self._mark_m(from_m))
        words: OrderWords = {
            "kind": "words",
            "said": self.said or stays_beside_words(self.editor.revision),
            **told,
        }
        self.send(words)
        self.on_told(self.editor.answer)

    def _show_pictures(self, serial: int | None) -> float:
        """Send the pictures and return the metre from which the yarn is seen."""
        found = self.editor.preview
        from_m = self._from_m(found.layout.stretches)
        mark_m = self._mark_m(from_m)
        self._send_scenes(scenes_of(found, from_m, mark_m))
        holds = self._moved_to is self.editor.revision and not self._numbers.cards
        self._turn += 1
        if self._names != self.editor.entry_names():
            self._names, self._named_in_turn = self.editor.entry_names(), self._turn
        self._numbers = numbers_of(self.editor)
        holds = holds and not self._numbers.cards
        pictures, buffers = frame_payload(found, self.editor, from_m)
        frame: OrderFrame = {
            "kind": "frame",
            "serial": serial,
            "turn": self._turn,
            "ahead_holds": holds,
            "knits_part": self.knits_part,
            **pictures,
        }
        self.send(frame, buffers)
        return from_m

    def _from_m(self, along: Stretches) -> float:
        """Return where the yarn is looked at: by default where it first shows most colours."""
        if self.editor.mark_m is None:
            return opening_m(along, YARN_MM)
        return min(self.editor.mark_m, last_m(along, YARN_MM))

    def _mark_m(self, from_m: float) -> float | None:
        """Return what the fabric begins with, where it shows a part of the yarn."""
        return from_m if self.knits_part else None

    def _send_scenes(self, scenes: Scenes) -> None:
        new, self._scenes = scenes.unlike(self._scenes), scenes
        if not new:
            return
        packed = {name: packed_scene(scene) for name, scene in new.items()}
        heads: list[SceneHead] = [{"name": name, **head} for name, (head, _) in packed.items()]
        buffers = [buffer for _, each in packed.values() for buffer in each]
        told: OrderScenes = {"kind": "scenes", "scenes": heads}
        self.send(told, buffers)

    def _send_ahead(self, entry: int | None) -> None:
        if not self._heard:
            return
        moves, tables = look_ahead(self.editor, self._numbers, entry)
        if moves:
            head, buffers = table_payload(tables, self._plies)
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
