"""The stash, to edit: rows checked as they are typed; the plan follows when all is right."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, fields
from pathlib import Path
from typing import Any, cast

from yarncolor.cautions import DYEING
from yarncolor.colour.dyes import DYESTUFFS, GUESS, Dyestuff, is_a_guess
from yarncolor.colour.palette import display_colours
from yarncolor.colour.photo.image import Photo, photo_from_bytes
from yarncolor.colour.photo.readings import Seen
from yarncolor.colour.srgb import label_ink
from yarncolor.defaults import singles_of
from yarncolor.editing.as_typed import TypedLots, as_shown
from yarncolor.editing.colour_text import colour_hint
from yarncolor.editing.editor import Editor
from yarncolor.editing.lot_fields import folded, in_sight
from yarncolor.editing.lot_merging import Merged, merged
from yarncolor.editing.lot_photograph import (
    LotReading,
    lot_reading,
    seen_of_lot,
    with_colour_seen,
)
from yarncolor.editing.lot_rows import Row, needed_words, plan_with_rows, rows_of
from yarncolor.editing.new_lots import with_lines
from yarncolor.editing.other_units import rows_in
from yarncolor.editing.rolags import rolags_words
from yarncolor.editing.row_faults import faults_by_field
from yarncolor.errors import PlanError, one_line
from yarncolor.measures import Measures, measures_of
from yarncolor.phrases import counted
from yarncolor.plan import Lot, Plan
from yarncolor.report.why.photographs_seen import photo_told
from yarncolor.units import names_of_unit
from yarncolor.widgets.choosing import Quiet
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.protocol.asks import AskOfView
from yarncolor.widgets.protocol.lots import (
    AddLines,
    LinesAdded,
    LotsAnswer,
    LotSeen,
    LotsFaults,
    LotsRefused,
    LotsRows,
    PhotographLot,
    PutRows,
    RowFault,
)
from yarncolor.widgets.protocol.messages import HEARD

Faults = dict[tuple[int, str], str]
"""What is wrong, by row and field."""
_MOST_VERSIONS = 1000
_MOST_PHOTOS = 12
_NEW_MASS = {"g": "10", "oz": "0.5"}
"""What a lot that is added weighs until it is said, by the unit of its field."""
_EXAMPLE = {
    "g": "Kelp 27 g dark olive\nFoam; 27,5 g; off white\nDeep Water 1 oz slate",
    "oz": "Kelp 1 oz dark olive\nFoam; 0.75; off white\nDeep Water 1 1/4 oz slate",
}
"""Lots as they may be typed, one a line."""
_FIELDS = tuple(one.name for one in fields(Row) if one.name != "key")
_MEANWHILE = (
    "The lots were changed elsewhere meanwhile. Undo shows them as they are now; "
    "what is typed here and not in the plan goes."
)
_WAITS = "They are shown as soon as what is marked here is right."
_BOTH = "Lots were changed elsewhere meanwhile too; both changes are in the plan."


def lots_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench to add, change, weigh and remove the lots of a plan file.

    Parameters
    ----------
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: LotsBench(editor))


class LotsBench(MessageWidget):
    """Rows of lots round one editor.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("lots/lots_bench")
    hears = HEARD["lots"]

    def __init__(self, editor: Editor) -> None:
        super().__init__()
        self.editor = editor
        self._photos: dict[str, Photo] = {}
        self._typed, self._sent = TypedLots({}), (0, list[Row]())
        self._busy, self._heard, self._faulty = Quiet(), False, False
        self._plans, self._version = {0: editor.plan}, 0
        self._seen: object = editor.revision

    def __repr__(self) -> str:
        lots = len(self.editor.plan.lots)
        return f"A bench to edit {lots} lots; it needs a live notebook."

    def on_ready(self, message: AskOfView) -> None:
        """Show the lots to a page that is there now, and which fields a row has."""
        self._heard = True
        rows = self._named(self._rows("", message))
        rows["palette"] = [
            {"name": f"{dye.name}, {dye.how}", "shades": [*_shades(dye)]} for dye in DYESTUFFS
        ]
        rows["caution"] = " ".join(DYEING)
        self._say(rows)

    def _named(self, rows: LotsRows) -> LotsRows:
        """Return rows with the fields that a row has, in the units of the plan."""
        say = measures_of(self.editor.plan)
        rows["fields"] = [asdict(one) for one in in_sight(say)]
        rows["more"] = [asdict(one) for one in folded(say)]
        rows["weighed"] = names_of_unit(say.mass.unit)
        rows["new_mass"] = _NEW_MASS[say.mass.unit]
        rows["example"] = _EXAMPLE[say.mass.unit]
        return rows

    def on_rows(self, message: PutRows) -> None:
        """Take rows as typed; where anything is wrong the plan and what is typed both stay."""
        history = self._since(message.get("version", self._now()))
        if not history:
            self._refuse(message, {}, [_MEANWHILE])
            return
        version = message.get("version", self._now())
        shown = self._plans[version]
        rows = [_row(told, len(history[0])) for told in message["rows"]]
        self._sent = (version, rows)
        self._typed, typed = self._typed.heard(rows), as_shown(shown, rows)
        merge = merged(history, typed)
        if merge.clashes:
            self._refuse_clashes(message, merge)
        else:
            self._take(message, merge, _BOTH if len(history) > 1 else "")

    def on_lines(self, message: AddLines) -> None:
        """Add the lots of several lines as one step; none of them where any line is wrong."""
        made = with_lines(self.editor.plan, message["text"])
        if made.plan is not None:
            self.editor.replace_plan(made.plan)
            self.refresh()
        waits = f" {_WAITS}" if made.plan is not None and self._faulty else ""
        told: LinesAdded = {
            "kind": "lines",
            "view": message["view"],
            "added": made.plan is not None,
            "said": made.words + waits,
            "wrong": list(made.faults),
        }
        self._say(told)

    def on_photograph(self, message: PhotographLot) -> None:
        """Say what a photograph says of one lot; give the lot that colour where it is wanted."""
        words, why = self._open(message), list[tuple[str, list[str]]]()
        photo = self._photos.get(message["of"])
        if photo is None:
            reading = LotReading("", words or "Open the picture once more.")
        else:
            seen = seen_of_lot(photo, message["drawn"])
            reading, why = lot_reading(seen), photo_told(seen)
            if message.get("take") and reading.colour:
                reading = self._with_colour(message["name"], seen, reading)
        told: LotSeen = {
            "kind": "seen",
            "view": message["view"],
            "of": message["of"],
            "colour": reading.colour,
            "words": reading.words,
            "why": why,
        }
        self._say(told)

    def _open(self, message: PhotographLot) -> str:
        """Keep the picture that came with a message, if one did; return why it is none."""
        data = cast("list[bytes]", message.get("buffers", []))
        if not data:
            return ""
        self._photos.pop(message["of"], None)
        try:
            photo = photo_from_bytes(bytes(data[0]), "the picture")
        except PlanError as error:
            return one_line(error)
        kept = list(self._photos.items())[1 - _MOST_PHOTOS :]
        self._photos = {**dict(kept), message["of"]: photo}
        return ""

    def _with_colour(self, name: str, seen: Seen, reading: LotReading) -> LotReading:
        if name not in self.editor.plan.names:
            return LotReading(reading.colour, "First mend what is marked beside this lot.")
        try:
            plan = with_colour_seen(self.editor.plan, name, seen)
        except PlanError as error:
            return LotReading(reading.colour, one_line(error))
        self.editor.replace_plan(plan)
        return LotReading(reading.colour, f"{name} has this colour now. Undo takes it back.")

    def _take(self, message: PutRows, merge: Merged, said: str) -> None:
        """Put rows in the place of the plan's lots, or tell what is wrong with them."""
        needed = needed_words(self.editor.plan, merge.rows)
        if needed:
            self._say({"kind": "refused", **_answering(message, needed)})
            return
        try:
            plan = plan_with_rows(self.editor.plan, merge.rows)
        except PlanError as error:
            say = measures_of(self.editor.plan)
            self._refuse(message, *_as_typed(merge, *faults_by_field(error, merge.rows, say)))
        else:
            with self._busy:
                self.editor.replace_plan(plan)
            rows = self._rows(said, message)
            rows["places"] = merge.places
            self._show(rows)

    def _refuse_clashes(self, message: PutRows, merge: Merged) -> None:
        gone = [f"{clash.words}." for clash in merge.clashes if clash.row is None]
        fields = {
            (clash.row, clash.field): clash.words
            for clash in merge.clashes
            if clash.row is not None
        }
        self._refuse(message, fields, [" ".join([*gone, _MEANWHILE])])

    def _refuse(self, message: PutRows, fields: Faults, rest: list[str]) -> None:
        self._faulty = True
        self.editor.set_pending(self, self._show_anew)
        faults: list[RowFault] = [
            {"row": at, "field": field, "words": words} for (at, field), words in fields.items()
        ]
        self._say({"kind": "faults", **_answering(message, "; ".join(rest)), "faults": faults})

    def _now(self) -> int:
        """Return a number that is another whenever the lots are others."""
        if not _is_shown_alike(self.editor.plan, self._plans[self._version]):
            self._version += 1
            self._plans[self._version] = self.editor.plan
            self._plans.pop(self._version - _MOST_VERSIONS, None)
        return self._version

    def _since(self, version: Any) -> list[list[Row]]:
        """Return the lots step by step from when they had a number; nothing for one unknown."""
        now = self._now()
        if type(version) is not int or version not in self._plans:
            return []
        if self._plans[version].units != self.editor.plan.units:
            return []
        return [rows_of(self._plans[each]) for each in range(version, now + 1)]

    def refresh(self) -> None:
        """Follow another bench, but never over rows that are typed and not right yet."""
        version, shown = self._version, self._plans[self._version]
        self._now()
        if self._seen is self.editor.revision or self._busy:
            return
        if shown.units != self.editor.plan.units:
            of, rows = self._sent
            is_left = self._faulty and of == version
            self._show_anew(rows_in(self.editor.plan, shown, rows) if is_left else ())
        elif not self._faulty:
            self._show(self._rows(""))

    def _show(self, rows: LotsRows) -> None:
        self._faulty, self._seen = False, self.editor.revision
        self.editor.clear_pending(self)
        self._say(rows)

    def _show_anew(self, typed: Iterable[Row] = ()) -> None:
        """Show the lots as the plan has them, then rows that are to be typed again."""
        rows = self._named(self._rows(""))
        rows["anew"], rows["typed"] = True, [asdict(row) for row in typed]
        self._show(rows)

    def _rows(self, said: str, message: AskOfView | None = None) -> LotsRows:
        plan, asked = self.editor.plan, _answering(message or {}, said)
        own, say = plan.own_lots, measures_of(plan)
        every = display_colours(plan.lots).srgb
        colours = every[: len(own)]
        rows = [asdict(row) for row in self._typed.rows(plan)]
        return {
            "kind": "rows",
            "do": asked["do"],
            "view": asked["view"],
            "serial": asked["serial"],
            "said": asked["said"],
            "rows": rows,
            "version": self._now(),
            "colours": list(colours),
            "hint": colour_hint(plan.lots, every),
            "inks": [label_ink(colour) for colour in colours],
            "guesses": [GUESS * is_a_guess(lot.source) for lot in own],
            "rolags": [rolags_words(lot, singles_of(plan.scheme), say) for lot in own],
            "total": _total(plan),
        }

    def _say(self, told: LotsRows | LotsFaults | LotsRefused | LinesAdded | LotSeen) -> None:
        if self._heard:
            self.send(told)


def _total(plan: Plan) -> str:
    """Return how many lots there are and what they weigh; of a braid, where it is changed."""
    own_g = sum(lot.mass_g for lot in plan.own_lots if not _is_of_others(lot))
    say = measures_of(plan)
    count = f"{counted(len(plan.own_lots), 'lot')}, {_weight(own_g, say)}"
    if plan.braid is None:
        return count
    colours = counted(len(plan.braid.names), "colour")
    braid = f"a braid of {colours}, {_weight(plan.braid.mass_g, say)}"
    beside = f"{count}, and {braid}" if plan.own_lots else braid[:1].upper() + braid[1:]
    return f"{beside}: {', '.join(plan.braid.names)}. Change it under Every option."


def _weight(mass_g: float, say: Measures) -> str:
    return f"{say.mass.of(mass_g):,.{1 + say.mass.finer}f} {say.mass.unit}"


def _is_shown_alike(plan: Plan, other: Plan) -> bool:
    return plan.lots == other.lots and plan.units == other.units


def _is_of_others(lot: Lot) -> bool:
    """Return whether a lot is fibre that is weighed with another lot already."""
    return bool(lot.recipe) or (lot.bath is not None and lot.bath.takes_from is not None)


def _shades(dye: Dyestuff) -> Iterator[tuple[str, str]]:
    return ((f"{dye.name}, {shade}", colour) for shade, colour in dye.shades.items())


def _answering(message: Mapping[str, Any], said: str) -> LotsAnswer:
    """Return how an answer begins: to what, and what is said."""
    do, view, serial = (message.get(key) for key in ("do", "view", "serial"))
    return {"do": do, "view": view, "serial": serial, "said": said}


def _row(told: dict[str, Any], lots: int) -> Row:
    key = told.get("key")
    texts = {field: str(told.get(field, "")) for field in _FIELDS}
    return Row(key if type(key) is int and 0 <= key < lots else None, **texts)


def _as_typed(merge: Merged, fields: Faults, rest: list[str]) -> tuple[Faults, list[str]]:
    """Return faults by the rows as they were typed; those of rows from elsewhere in words."""
    typed = {place: at for at, place in enumerate(merge.places) if place is not None}
    here = {(typed[at], field): words for (at, field), words in fields.items() if at in typed}
    other = [
        f"{merge.rows[at].name}: {fields[at, field]}" for at, field in fields if at not in typed
    ]
    return here, [*other, *rest]
