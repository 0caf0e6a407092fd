"""At the wheel: bobbin by bobbin, where I am, what has strayed, how to go on, slips, the phone."""

from collections.abc import Callable
from pathlib import Path

from yarncolor.answers.choices import Replan, replan
from yarncolor.answers.progress import progress, row_reached
from yarncolor.answers.taking import taken
from yarncolor.colour.srgb import label_ink
from yarncolor.editing import at_the_wheel as wheel
from yarncolor.editing.at_the_wheel_draft import fault_beside, piece_words, put_typed
from yarncolor.editing.at_the_wheel_pieces import PieceKey
from yarncolor.editing.at_the_wheel_slips import after_slip
from yarncolor.editing.draft import Draft
from yarncolor.editing.field_units import in_units
from yarncolor.editing.measures import kind_words, measure
from yarncolor.editing.option_text import format_option
from yarncolor.editing.slips import TOO_MANY
from yarncolor.editing.step_words import stays_beside_words
from yarncolor.errors import PlanError
from yarncolor.measures import measures_of
from yarncolor.plan import Plan
from yarncolor.plan.key import Key
from yarncolor.planfile.taken_home import brought_home
from yarncolor.report.advice import advice_on
from yarncolor.report.phone.brought import brought_lines
from yarncolor.report.ways_on_text import WAY_WORDS
from yarncolor.report.wheel_advice import KINDS
from yarncolor.report.wheel_words import row_reached_words, spun_so_far
from yarncolor.widgets.draft_bench import DraftBench
from yarncolor.widgets.message_widget import module
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.protocol.asks import Ask
from yarncolor.widgets.protocol.messages import HEARD
from yarncolor.widgets.protocol.spinning import (
    BringHome,
    BroughtHome,
    OfPiece,
    PieceField,
    RowReached,
    ShiftPiece,
    Slip,
    TakeWay,
    TareField,
    TickPiece,
    WaysOn,
    WeighBobbin,
    WheelState,
)
from yarncolor.widgets.spinning.ply_pages import ply_pages
from yarncolor.widgets.spinning.slips_said import OF_A_PLY, to_do
from yarncolor.widgets.spinning.ways import ways_on

_NOTHING_YET = "Nothing is spun yet. Tick each row when it is on the bobbin; saving keeps it."
_SAID_WITH_THE_BEST = ("other_order", "short_lot")


def spinning_bench(plan_file: str | Path, out_folder: str | Path = "out") -> WithPlanBar:
    """Return a bench to write down what was spun of a plan file, and to decide how to go on.

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
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: SpinningBench(editor))


class SpinningBench(DraftBench):
    """What lies on the bobbins, round one editor.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    _esm = module("spinning/spinning_bench")
    hears = HEARD["spinning"]

    def __repr__(self) -> str:
        return "A bench to write down what was spun; it needs a live notebook."

    def on_ready(self, _: Ask) -> None:
        """Show every ply's page to a page that is there now."""
        self._heard = True
        self._say({**self.state(), "fields": self._fields(), "slips": OF_A_PLY})
        self._say(self.ways())

    def on_rest(self, _: Ask) -> None:
        """Tell, now that the fingers rest, whether it matters and how to go on."""
        self._say(self.ways())

    def on_tick(self, message: TickPiece) -> None:
        """Write down that a row was spun as planned, or that a piece was not."""
        key = PieceKey.read(message["piece"])
        if key is None:
            return
        if not message["on"]:
            self._forget(key)
            self._change(lambda plan: wheel.unticked(plan, key))
        elif key.row:
            self._change(lambda plan: wheel.ticked(plan, key))
        else:
            self._change(lambda plan: self._asked_for(plan, key.ply))

    def on_up_to(self, message: OfPiece) -> None:
        """Write down that every row up to one was spun as planned."""
        key = PieceKey.read(message["piece"])
        if key is not None and key.row:
            said = f"All up to {piece_words(key)} as planned."
            self._change(lambda plan: wheel.all_up_to(plan, key), said)

    def on_shift(self, message: ShiftPiece) -> None:
        """Write down that a piece was spun sooner or later than it stands."""
        key = PieceKey.read(message["piece"])
        if key is not None:
            self._change(lambda plan: wheel.moved(plan, key, message["by"]))

    def on_extra(self, message: OfPiece) -> None:
        """Write down a piece too many after another, of its lot and grams, to be put right."""
        key = PieceKey.read(message["piece"])
        if key is not None:
            masses = self.editor.answer.say.mass.plural
            said = f"{to_do(TOO_MANY)} Its lot and {masses} are a guess: put them right."
            self._change(lambda plan: wheel.with_extra(plan, key, *self._like(key)), said)

    def _key_of(self, name: str) -> Key | None:
        """Return the key of a field; None where there is no such field."""
        return wheel.option_of_field(name)

    def _with_typed(self, draft: Draft, name: str, text: str) -> Draft:
        """Put what was typed into the plan, with all that waited; return what is left."""
        return put_typed(self.editor, draft, name, text)

    def on_slip(self, message: Slip) -> None:
        """Write down what went wrong, and say what to do about it."""
        slip, key = message["slip"], PieceKey.read(message["piece"])
        row = key.row if key is not None else 0
        self._change(lambda plan: after_slip(plan, slip, message["ply"], row), to_do(slip))

    def on_weigh(self, message: WeighBobbin) -> None:
        """Say which row a bobbin is at, by its weight."""
        self._say(self._reached(message))

    def on_take(self, message: TakeWay) -> None:
        """Take a way to go on."""
        found = self._replanned()
        choice = None if found is None else found.named(message["way"])
        if found is not None and choice is not None:
            said = f"Decided: {WAY_WORDS[choice.name]}. Undo brings back what was."
            self._change(lambda _: taken(found.answer, choice), said)
            self._say(self.ways())

    def on_bring(self, message: BringHome) -> None:
        """Bring in what a phone took home, or tell every fault of it."""
        told: BroughtHome = {"kind": "brought", "brought": False, "said": "", "wrong": []}
        try:
            home = brought_home(message["text"], self.editor.plan, "the text")
        except PlanError as error:
            told["wrong"] = [str(fault) for fault in error.faults]
        else:
            self._change(lambda _: home.plan, "Brought in from the phone. Undo takes it back.")
            told["brought"], told["said"] = True, " ".join(brought_lines(home))
        self._say(told)
        self._say(self.ways())

    def _change(self, change: Callable[[Plan], Plan], said: str = "") -> None:
        """Change the plan by one step, or say why it cannot be."""
        plan = self.editor.plan
        try:
            plan = change(plan)
            with self._busy:
                self.editor.say_spun(wheel.checked(plan))
        except PlanError as error:
            words = (fault_beside(fault, plan) for fault in error.faults)
            self._tell("; ".join(words), refused=True)
        else:
            self._tell(said)

    def _like(self, key: PieceKey) -> tuple[str, float]:
        """Return lot and grams of a piece, for another one like it."""
        answer, portions = self.editor.answer, self.editor.answer.layout.planned
        at = portions.of_ply(key.ply - 1).start + max(key.row, 1) - 1
        name = answer.resolved.plan.names[portions.lot[at]]
        return name, round(float(portions.mass_g[at]), 3)

    def _asked_for(self, plan: Plan, ply: int) -> Plan:
        """Return the plan of which a piece that was asked for beside the rows is spun now."""
        laid = self.editor.answer.layout
        at = laid.wheel.next_at(ply - 1) if laid.wheel is not None else None
        if at is None or laid.row[at]:
            return plan
        lot = laid.resolved.plan.names[laid.portions.lot[at]]
        return wheel.with_extra(plan, PieceKey(ply), lot, float(laid.portions.mass_g[at]))

    def _forget(self, key: PieceKey) -> None:
        """Drop what is typed of a piece; of one too many, of all of its ply: they are counted."""
        draft = self.draft
        for name in draft.typed:
            told = wheel.key_of_field(name)
            if told and (
                told[0] == key or (key.extra and told[0].extra and told[0].ply == key.ply)
            ):
                draft = draft.without(name)
        self._keep(draft)

    def _follow_units(self) -> bool:
        is_other = super()._follow_units()
        if is_other:
            self._say({**self.state(), "fields": self._fields(), "slips": OF_A_PLY})
        return is_other

    def _fields(self) -> list[PieceField]:
        fields = wheel.PIECE_FIELDS.items()
        keys = ((name, in_units(key, measures_of(self.editor.plan))) for name, key in fields)
        return [{"name": name, "words": key.words, "kind": key.kind} for name, key in keys]

    def state(self) -> WheelState:
        """Return every ply's page as it stands, and what has strayed."""
        plan, answer = self.editor.plan, self.editor.answer
        far = progress(answer)
        lots = zip(answer.resolved.plan.names, answer.palette.srgb, strict=True)
        return {
            "kind": "wheel",
            "said": self._said or stays_beside_words(self.editor.revision),
            "refused": self._refused,
            "lots": [(name, colour, label_ink(colour)) for name, colour in lots],
            "plies": ply_pages(plan, answer, self.draft),
            "tare": self._tare(),
            "progress": _NOTHING_YET if far is None else spun_so_far(far, answer.say.mass),
            "strayed": self._strayed(),
            "is_spun": bool(plan.spun),
        }

    def _strayed(self) -> list[str]:
        """Return what has strayed, but for what the best way to go on says of itself."""
        told = _SAID_WITH_THE_BEST if self.editor.plan.spun else ()
        kinds = [kind for kind in KINDS if kind not in told]
        return [one.text for one in advice_on(self.editor.answer) if one.kind in kinds]

    def _tare(self) -> TareField:
        name, plan = wheel.TARE.path, self.editor.plan
        return {
            "name": name,
            "words": in_units(wheel.TARE, measures_of(plan)).words,
            "text": self.draft.typed.get(name, format_option(plan, wheel.TARE)),
            "fault": self.draft.faults.get(name, ""),
        }

    def _replanned(self) -> Replan | None:
        return replan(self.editor.answer) if self.editor.plan.spun else None

    def ways(self) -> WaysOn:
        """Return whether it matters, and the ways to go on."""
        return ways_on(self.editor.answer, self._replanned())

    def _reached(self, message: WeighBobbin) -> RowReached:
        say = self.editor.answer.say
        ply, key = message["ply"], in_units(wheel.PIECE_FIELDS["gross_g"], say)
        told: RowReached = {"kind": "reached", "ply": ply, "words": "", "piece": "", "fault": True}
        gross_g = measure(key, message["text"])
        if isinstance(gross_g, str) or gross_g <= 0:
            asked = f"give {say.mass.plural}, bobbin and single"
            told["words"] = kind_words(key, message["text"]) or asked
            return told
        answer = self.editor.answer
        reached = row_reached(answer, ply - 1, float(gross_g), message["bobbin"])
        if reached is None:
            told["words"] = "say first what the empty bobbin weighs"
            return told
        row = int(answer.layout.row[reached.at])
        piece = str(PieceKey(ply, row=row)) if row else ""
        return {**told, "words": row_reached_words(answer, reached), "piece": piece, "fault": False}
