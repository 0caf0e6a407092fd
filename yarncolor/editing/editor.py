"""A plan being worked on: moves, held places, options, undo, saving. Plain Python."""

from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Any

from yarncolor.answers.answer import Answer, Preview
from yarncolor.editing.derived import LastDerived
from yarncolor.editing.fitted_orders import fitted
from yarncolor.editing.fitting import changed_data
from yarncolor.editing.history import ControlDrag, Drag, EntryDrag, History, Step
from yarncolor.editing.kept_steps import KeptSteps, history_of, kept_steps
from yarncolor.editing.order import Order
from yarncolor.editing.pending import Pending, Watchers
from yarncolor.editing.sequence import closed_keys, is_closed, names_of_places, reordered
from yarncolor.editing.step_words import step_words
from yarncolor.editing.steps import fresh_step, step_beside_spun, step_to
from yarncolor.errors import fail
from yarncolor.layout.resolved import ResolvedPlan
from yarncolor.plan import Plan
from yarncolor.planfile.document import PlanDocument
from yarncolor.planfile.read import plan_from_data, plan_from_text, plan_of_file
from yarncolor.planfile.toml_text import read_text


class Editor:
    """A plan being worked on: its order, its steps, its file, and who looks at it.

    Moves of one entry, one after the other, are one step of undo, as are changes by one slider:
    what is dragged makes many. What follows from the plan is made once for all who look.

    Parameters
    ----------
    plan : Plan
        Where to begin.
    path : str or Path, optional
        The plan file it came from, for saving.
    text : str
        What stands in that file.
    """

    def __init__(self, plan: Plan, path: str | Path | None = None, text: str = "") -> None:
        document = PlanDocument(Path(path) if path is not None else None, text, plan)
        self._history = History(fresh_step(plan, document).called())
        self._pending, self._watchers = Pending(), Watchers()
        self._derived = LastDerived()
        self.mark_m: float | None = None
        """Where on the yarn one looks, in metres; None until a mark is set. It is no step."""

    @classmethod
    def opened(cls, path: str | Path) -> "Editor":
        """Return an editor on a plan file; raise `PlanError` where it has faults."""
        text = read_text(path)
        return cls(plan_of_file(text, path), path, text)

    @property
    def plan(self) -> Plan:
        """The plan as it stands."""
        return self._history.now.plan

    @property
    def resolved(self) -> ResolvedPlan:
        """The plan with every default filled in."""
        return self._derived.of(self.plan).resolved

    @property
    def preview(self) -> Preview:
        """The plan laid out in its colours: enough for pictures."""
        return self._derived.of(self.plan).preview

    @property
    def answer(self) -> Answer:
        """Everything that follows from the plan."""
        return self._derived.of(self.plan).answer

    @property
    def path(self) -> Path | None:
        """The file that the plan is kept in; None where it has none yet."""
        return self._document.path

    @property
    def order(self) -> Order:
        """Which entry stands in which place, and which are held."""
        return self._history.now.order

    @property
    def entries(self) -> tuple[int, ...]:
        """Which entry stands in each place."""
        return self.order.entries

    @property
    def held(self) -> frozenset[int]:
        """Entries that stay where they are."""
        return self.order.held

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to undo, or something typed to put back."""
        return bool(self._history.past or self._pending)

    @property
    def can_redo(self) -> bool:
        """Whether there is a step to do again; first what is typed has to be right."""
        return bool(self._history.future and not self._pending)

    @property
    def undo_words(self) -> str:
        """What undo takes back, in a few words; empty where there is nothing."""
        if self._pending:
            return "what was typed and is not right"
        past = self._history.past
        return step_words(past[-1], self._history.now) if past else ""

    @property
    def redo_words(self) -> str:
        """What is done again, in a few words; empty where there is nothing."""
        future = self._history.future if self.can_redo else ()
        return step_words(self._history.now, future[0]) if future else ""

    @property
    def file_text(self) -> str:
        """What stands in the plan's file, as far as is known here; empty where it has none."""
        return self._document.text

    @property
    def revision(self) -> Step:
        """The step that stands: another after every change, its undoing and its redoing."""
        return self._history.now

    @property
    def has_pending(self) -> bool:
        """Whether something is typed somewhere that the plan cannot take yet."""
        return bool(self._pending)

    @property
    def is_saved(self) -> bool:
        """Whether the file says what the plan says."""
        return self.plan == self._document.saved

    @property
    def is_closed(self) -> bool:
        """Whether the order ends on the lot it began with."""
        return is_closed(self.names())

    @property
    def _document(self) -> PlanDocument:
        return self._history.now.document

    def place_of(self, entry: int) -> int:
        """Return the place where an entry stands."""
        return self.order.place_of(entry)

    def names(self) -> tuple[str, ...]:
        """Return the lot of each place."""
        return names_of_places(self.plan)

    def entry_names(self) -> tuple[str, ...]:
        """Return the lot of each entry, in the order of entries."""
        by_entry = dict(zip(self.entries, self.names(), strict=True))
        return tuple(by_entry[entry] for entry in sorted(by_entry))

    def move(self, i: int, j: int) -> None:
        """Move what stands in place i to place j; the others make room, held ones stay.

        Parameters
        ----------
        i, j : int
            Places, from 0.

        Raises
        ------
        PlanError
            For a place outside the order, or one that is held.
        """
        for place in (i, j):
            self._check_place(place)
        if i != j:
            self._reorder(self.order.moved(i, j), EntryDrag(self.entries[i]))

    def _check_place(self, place: int) -> None:
        places = len(self.order)
        if not 0 <= place < places:
            fail("order", f"there is no place {place + 1}; the order has {places}")
        if self.order.is_held(place):
            fail("order", f"place {place + 1} ({self.names()[place]}) is held; let it go first")

    def hold(self, entry: int, held: bool = True) -> None:
        """Hold an entry in its place, or let it go.

        Parameters
        ----------
        entry : int
            Of the order, by its own number.
        held : bool
            Or let go.
        """
        order = self.order.holding(entry, held)
        if order != self.order:
            self._take(replace(self._history.now, order=order, drag=None))

    def reverse(self) -> None:
        """Turn the order of the places that are not held the other way round."""
        self._reorder(self.order.reversed())

    def turn_round(self, places: int = 1) -> None:
        """Let the order begin some places on, counted round; held places stay."""
        self._reorder(self.order.turned(places))

    def close(self) -> None:
        """Let the order end on the lot it began with; where it does, leave that place out.

        Raises
        ------
        PlanError
            Where the scheme has no such order.
        """
        self.change(**closed_keys(self.plan))

    def change(self, table: str = "scheme", **keys: Any) -> None:
        """Change keys of a table of the plan file: scheme, spinning, plying, scale or target.

        What a new scheme or number of plies cannot keep is fitted: lists of one number a ply
        are cut or filled up, a solid lot leaves the sequence, a free scheme begins with the
        portions as they lie.

        Parameters
        ----------
        table : str
            Of the plan file.
        keys : dict
            Of that table; None takes a key away.

        Raises
        ------
        PlanError
            Where the plan would not be right; then nothing has changed.
        """
        self.change_tables({table: keys})

    def change_tables(self, tables: dict[str, dict[str, Any]], control: str | None = None) -> None:
        """Change keys of several tables as one step, as `change` does of one.

        Parameters
        ----------
        tables : dict of str to dict
            Keys with their new values, by table; None takes a key away.
        control : str, optional
            What is dragged: changes by one control, one after the other, are one step.
        """
        plan = self.plan
        for table, keys in tables.items():
            if keys:
                data = changed_data(plan, table, keys, self._history.last_ordered())
                plan = plan_from_data(fitted(data), "this change")
        self._put(plan, ControlDrag(control) if control else None)

    def replace_plan(self, plan: Plan) -> None:
        """Put another plan in the place of this one, as one step; what was spun stays as it is."""
        self._put(plan)

    def say_spun(self, plan: Plan) -> None:
        """Put a plan in the place of this one that says anew what was spun, as one step."""
        if plan != self.plan:
            self._take(step_to(self._history.now, plan))

    def watch(self, task: Callable[[], None], pending: bool = False) -> None:
        """Call a task after every change, its undoing and its redoing: benches share an editor.

        Parameters
        ----------
        task : callable
            Called with nothing.
        pending : bool
            Call it as well when something is typed that the plan cannot take, and when the plan
            is saved.
        """
        self._watchers.add(task, pending)

    def set_pending(self, owner: object, drop: Callable[[], None]) -> None:
        """Know of something typed that the plan cannot take yet; undo drops it first.

        Parameters
        ----------
        owner : object
            Who has something typed.
        drop : callable
            Puts it back as it was.
        """
        self._pending.put(owner, drop)
        self._watchers.tell_of_pending()

    def clear_pending(self, owner: object) -> None:
        """Forget what an owner had typed: it is right by now, or gone."""
        if self._pending.clear(owner):
            self._watchers.tell_of_pending()

    def open_text(self, text: str, name: str, path: Path | None = None) -> None:
        """Put the plan of another text in the place of this one, as one step; `PlanError` if wrong.

        Parameters
        ----------
        text : str
            What stands in it.
        name : str
            How faults call it.
        path : Path, optional
            Where it is kept; without, it has no file yet and is saved under a name of its own.
        """
        plan = plan_from_text(text, name)
        self._drop_pending()
        self._take(fresh_step(plan, PlanDocument(path, text, plan)))

    def kept(self) -> KeptSteps:
        """Return the plan and its steps as texts; raise `PlanError` where one cannot be written."""
        return kept_steps(self._history)

    def take_up(self, kept: KeptSteps) -> None:
        """Go on with steps that were kept; `PlanError` where one is no plan."""
        history = history_of(kept)
        self._drop_pending()
        self._go_to(history)

    def undo(self) -> None:
        """Put back what is typed and not right; else take the last step back, if there is one."""
        if self._pending:
            self._drop_pending()
        elif self._history.past:
            self._go_to(self._history.undone())

    def redo(self) -> None:
        """Take a step that was undone again."""
        if self._history.future:
            self._go_to(self._history.redone())

    def text(self) -> str:
        """Return the plan file as it would be saved, comments and all."""
        return self._document.merged(self.plan)

    def save(self, spare: timedelta = timedelta(0)) -> Path:
        """Save to the file it came from, as `PlanDocument.write` does, and return its path.

        Raises
        ------
        PlanError
            Where there is no file yet, or it was changed by someone else meanwhile.
        """
        return self._saved(self._document.write(self.plan, spare))

    def save_as(self, path: str | Path) -> Path:
        """Save under a name that is not taken, go on there, and return the path."""
        return self._saved(self._document.write_new(self.plan, Path(path)))

    def save_beside(self, name: str, otherwise: Path) -> Path:
        """Save under a plain name beside its file, or in another folder where it has none.

        Parameters
        ----------
        name : str
            Plain, without a folder.
        otherwise : Path
            A folder, for a plan that has no file yet.

        Raises
        ------
        PlanError
            For a name that is none or is taken.
        """
        return self.save_as(self._document.beside(name, otherwise))

    def _saved(self, path: Path) -> Path:
        """Return where the plan was saved; all who look are told where its name is another."""
        named = self._history.called()
        if named.now is self._history.now:
            self._watchers.tell_of_pending()
        else:
            self._go_to(named)
        return path

    def _reorder(self, order: Order, drag: Drag | None = None) -> None:
        if order != self.order:
            plan = reordered(self.plan, order.sources(self.order))
            self._take(replace(step_beside_spun(self._history, plan, drag), order=order))

    def _put(self, plan: Plan, drag: Drag | None = None) -> None:
        if plan != self.plan:
            self._take(step_beside_spun(self._history, plan, drag))

    def _take(self, step: Step) -> None:
        self._go_to(self._history.taken(step.called()))

    def _go_to(self, history: History) -> None:
        self._history = history
        self._watchers.tell_of_a_step()

    def _drop_pending(self) -> None:
        self._pending.drop_all()
        self._watchers.tell_of_pending()
