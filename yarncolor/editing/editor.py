"""A plan being worked on: moves, held places, options, undo, saving. Plain Python."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from yarncolor.defaults import scheme_name, sequence_of, to_divide_g
from yarncolor.editing.fitting import UNORDERED, changed_data
from yarncolor.errors import fail
from yarncolor.plan import Plan, Scheme
from yarncolor.planfile.document import PlanDocument
from yarncolor.planfile.read import parsed, plan_from_data, read_text

_MOST_STEPS = 1000


@dataclass(frozen=True)
class _State:
    """What undo brings back: the plan, its file, which entry stands where, and what is held."""

    plan: Plan
    file: PlanDocument
    entries: tuple[int, ...]
    held: frozenset[int]
    moved: int | str | None = None


class Editor:
    """A plan being worked on.

    An *entry* is a lot at one place of the sequence, named by a number that it keeps however
    it is moved; a *place* is a position, counted from 0. Held entries stay where they are while
    others move round them. Moves of one entry, one after the other, are one step of undo: a
    slider that is dragged makes many.

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
        self._now = _fresh(plan, PlanDocument(Path(path) if path is not None else None, text, plan))
        self._past: list[_State] = []
        self._future: list[_State] = []
        self._watchers: list[Callable[[], None]] = []
        self._draft_watchers: list[Callable[[], None]] = []
        self._drafts: dict[int, Callable[[], None]] = {}

    @classmethod
    def opened(cls, path: str | Path) -> "Editor":
        """Return an editor on a plan file; raise `PlanError` where it has faults."""
        text = read_text(path)
        return cls(plan_from_data(parsed(text, str(path)), str(path)), path, text)

    @property
    def plan(self) -> Plan:
        """The plan as it stands."""
        return self._now.plan

    @property
    def path(self) -> Path | None:
        """The file that the plan is kept in; None where it has none yet."""
        return self._now.file.path

    @property
    def entries(self) -> tuple[int, ...]:
        """Which entry stands in each place."""
        return self._now.entries

    @property
    def held(self) -> frozenset[int]:
        """Entries that stay where they are."""
        return self._now.held

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to undo, or something typed to put back."""
        return bool(self._past or self._drafts)

    @property
    def can_redo(self) -> bool:
        """Whether there is a step to do again; first what is typed has to be right."""
        return bool(self._future and not self._drafts)

    @property
    def revision(self) -> object:
        """Something that is another after every change, its undoing and its redoing."""
        return self._now

    @property
    def has_pending(self) -> bool:
        """Whether something is typed somewhere that the plan cannot take yet."""
        return bool(self._drafts)

    @property
    def is_saved(self) -> bool:
        """Whether the file says what the plan says."""
        return self._now.plan == self._now.file.saved

    def place_of(self, entry: int) -> int:
        """Return the place where an entry stands."""
        return self.entries.index(entry)

    def names(self) -> tuple[str, ...]:
        """Return the lot of each place."""
        return sequence_of(self.plan.scheme, self.plan.names, to_divide_g(self.plan))

    def entry_names(self) -> tuple[str, ...]:
        """Return the lot of each entry, in the order of entries."""
        by_entry = dict(zip(self.entries, self.names(), strict=True))
        return tuple(by_entry[entry] for entry in sorted(by_entry))

    def move(self, i: int, j: int) -> None:
        """Move what stands in place i to place j; the others make room, held ones stay.

        Raises
        ------
        PlanError
            For a place outside the order, or one that is held.
        """
        places = len(self.entries)
        for place in (i, j):
            if not 0 <= place < places:
                fail("order", f"there is no place {place + 1}; the order has {places}")
            if self.entries[place] in self.held:
                fail("order", f"place {place + 1} ({self.names()[place]}) is held; let it go first")
        if i != j:
            self._reorder(self._order_after(i, j), self.entries[i])

    def plan_after(self, entry: int, place: int) -> Plan | None:
        """Return the plan with an entry moved to a place; None where that changes nothing."""
        i = self.place_of(entry)
        if i == place or self.held & {entry, self.entries[place]}:
            return None
        return self._reordered(self._order_after(i, place))

    def _order_after(self, i: int, j: int) -> list[int]:
        """Return where each place gets its entry from when one moves and the loose make room."""
        loose = [place for place, entry in enumerate(self.entries) if entry not in self.held]
        moving = loose[:]
        moving.insert(loose.index(j), moving.pop(loose.index(i)))
        order = list(range(len(self.entries)))
        for place, source in zip(loose, moving, strict=True):
            order[place] = source
        return order

    def hold(self, entry: int, held: bool = True) -> None:
        """Hold an entry in its place, or let it go."""
        now = self.held | {entry} if held else self.held - {entry}
        if now != self.held:
            self._step(replace(self._now, held=now, moved=None))

    def reverse(self) -> None:
        """Turn the order of the places that are not held the other way round."""
        loose = [place for place, entry in enumerate(self.entries) if entry not in self.held]
        self._permute_loose(loose, loose[::-1])

    def turn_round(self, places: int = 1) -> None:
        """Let the order begin some places on, counted round; held places stay."""
        loose = [place for place, entry in enumerate(self.entries) if entry not in self.held]
        shift = places % len(loose) if loose else 0
        self._permute_loose(loose, loose[shift:] + loose[:shift])

    @property
    def is_closed(self) -> bool:
        """Whether the order ends on the lot it began with."""
        names = self.names()
        return len(names) > 1 and names[0] == names[-1]

    def close(self) -> None:
        """Let the order end on the lot it began with; where it does, leave that place out.

        Raises
        ------
        PlanError
            Where the scheme has no such order.
        """
        names, parts = self.names(), self.plan.scheme.parts
        if not names:
            fail("order", "a free scheme has portions in the place of an order")
        names = names[:-1] if self.is_closed else (*names, names[0])
        if parts is not None:
            parts = parts[:-1] if self.is_closed else (*parts, 1.0)
        self.change(sequence=list(names), parts=parts and list(parts))

    def change(self, table: str = "scheme", **keys: Any) -> None:
        """Change keys of a table of the plan file: scheme, spinning, plying, scale or target.

        What a new scheme or number of plies cannot keep is fitted: lists of one number a ply
        are cut or filled up, a solid lot leaves the sequence, a free scheme begins with the
        portions as they lie.

        Raises
        ------
        PlanError
            Where the plan would not be right; then nothing has changed.
        """
        self.change_tables({table: keys})

    def change_tables(self, tables: dict[str, dict[str, Any]], drag: str | None = None) -> None:
        """Change keys of several tables as one step, as `change` does of one.

        Changes of one drag, one after the other, are one step: a slider makes many.

        Raises
        ------
        PlanError
            Where the plan would not be right; then nothing has changed.
        """
        plan = self.plan
        for table, keys in tables.items():
            if keys:
                data = changed_data(plan, table, keys, self._last_ordered())
                plan = plan_from_data(data, "this change")
        if plan != self.plan:
            self._take(plan, drag)

    def replace_plan(self, plan: Plan) -> None:
        """Put another plan in the place of this one, as one step."""
        if plan != self.plan:
            self._take(plan)

    def watch(self, task: Callable[[], None], drafts: bool = False) -> None:
        """Call a task after every change, its undoing and its redoing: benches share an editor.

        With `drafts` it is called as well when something is typed that the plan cannot take, and
        when the plan is saved.
        """
        self._watchers.append(task)
        if drafts:
            self._draft_watchers.append(task)

    def set_pending(self, owner: object, drop: Callable[[], None]) -> None:
        """Know of something typed that the plan cannot take yet; undo drops it first."""
        self._drafts[id(owner)] = drop
        self._tell_of_drafts()

    def clear_pending(self, owner: object) -> None:
        """Forget what an owner had typed: it is right by now, or gone."""
        if self._drafts.pop(id(owner), None) is not None:
            self._tell_of_drafts()

    def open_text(self, text: str, name: str, path: Path | None = None) -> None:
        """Put the plan of another file's text in the place of this one, as one step.

        Parameters
        ----------
        text : str
            What stands in it.
        name : str
            How faults call it.
        path : Path, optional
            Where it is kept; without, it has no file yet and is saved under a name of its own.

        Raises
        ------
        PlanError
            Where the text has faults; then nothing has changed.
        """
        plan = plan_from_data(parsed(text, name), name)
        self._drop_drafts()
        self._step(_fresh(plan, PlanDocument(path, text, plan)))

    def undo(self) -> None:
        """Put back what is typed and not right; else take the last step back, if there is one."""
        if self._drafts:
            self._drop_drafts()
        elif self._past:
            self._future.append(self._now)
            self._now = self._past.pop()
            self._tell()

    def redo(self) -> None:
        """Take a step that was undone again."""
        if self._future:
            self._past.append(self._now)
            self._now = self._future.pop()
            self._tell()

    def text(self) -> str:
        """Return the plan file as it would be saved, comments and all."""
        return self._now.file.merged(self.plan)

    def save(self) -> Path:
        """Save to the file it came from, whole or not at all, and return its path.

        Raises
        ------
        PlanError
            Where there is no file yet, or it was changed by someone else meanwhile.
        """
        return self._saved(self._now.file.write(self.plan))

    def save_as(self, path: str | Path) -> Path:
        """Save under a name that is not taken, go on there, and return the path."""
        return self._saved(self._now.file.write_new(self.plan, Path(path)))

    def save_beside(self, name: str, otherwise: Path) -> Path:
        """Save under a plain name beside its file, or in another folder where it has none.

        Raises
        ------
        PlanError
            For a name that is none or is taken.
        """
        return self.save_as(self._now.file.beside(name, otherwise))

    def _saved(self, path: Path) -> Path:
        self._tell_of_drafts()
        return path

    def _last_ordered(self) -> Scheme | None:
        schemes = (state.plan.scheme for state in reversed(self._past))
        return next((each for each in schemes if scheme_name(each) not in UNORDERED), None)

    def _permute_loose(self, loose: list[int], sources: list[int]) -> None:
        order = list(range(len(self.entries)))
        for place, source in zip(loose, sources, strict=True):
            order[place] = source
        if order != sorted(order):
            self._reorder(order, None)

    def _reordered(self, order: list[int]) -> Plan:
        scheme, names = self.plan.scheme, self.names()
        parts = scheme.parts and tuple(scheme.parts[source] for source in order)
        scheme = replace(scheme, sequence=tuple(names[source] for source in order), parts=parts)
        return replace(self.plan, scheme=scheme)

    def _reorder(self, order: list[int], entry: int | None) -> None:
        entries = tuple(self.entries[source] for source in order)
        self._step(replace(self._now, plan=self._reordered(order), entries=entries, moved=entry))

    def _take(self, plan: Plan, drag: str | None = None) -> None:
        same = self.names() == sequence_of(plan.scheme, plan.names, to_divide_g(plan))
        state = replace(self._now, plan=plan) if same else _fresh(plan, self._now.file)
        self._step(replace(state, moved=drag))

    def _step(self, state: _State) -> None:
        same_drag = state.moved is not None and state.moved == self._now.moved and self._past
        if not same_drag:
            self._past = [*self._past, self._now][-_MOST_STEPS:]
        self._now = state
        self._future = []
        self._tell()

    def _tell(self) -> None:
        for task in self._watchers:
            task()

    def _drop_drafts(self) -> None:
        drops, self._drafts = self._drafts, {}
        for drop in drops.values():
            drop()
        self._tell_of_drafts()

    def _tell_of_drafts(self) -> None:
        for task in self._draft_watchers:
            task()


def _fresh(plan: Plan, file: PlanDocument) -> _State:
    count = len(sequence_of(plan.scheme, plan.names, to_divide_g(plan)))
    return _State(plan, file, tuple(range(count)), frozenset())
