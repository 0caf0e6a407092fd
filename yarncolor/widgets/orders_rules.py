"""What every order is to obey, put together from choosers: places held, neighbours, left out."""

from collections.abc import Callable, Iterator
from typing import Any

import ipywidgets as w

from yarncolor.editing.asked_orders import asked
from yarncolor.editing.editor import Editor
from yarncolor.editing.sequence import names_of_places
from yarncolor.errors import PlanError
from yarncolor.plan import Plan, to_data
from yarncolor.plan.orders import AS_IT_IS
from yarncolor.plan.reference import KEYS
from yarncolor.widgets.choosing import Quiet, refused
from yarncolor.widgets.mishaps import heard
from yarncolor.widgets.parts import in_rows, label, status

_HOLD, _BESIDE, _APART, _LEAVE = "hold", "neighbours", "apart", "may_leave_out"
_KINDS = {
    _HOLD: "stays in place",
    _BESIDE: "is always beside",
    _APART: "is never beside",
    _LEAVE: "may be left out",
}


class OrderRules(w.VBox):
    """Choosers that say one rule, a button that adds it, and each rule there is with its button.

    Parameters
    ----------
    editor : Editor
        The plan being worked on.
    """

    def __init__(self, editor: Editor) -> None:
        self.editor, self._quiet = editor, Quiet()
        self.lot, self.other = w.Dropdown(), w.Dropdown()
        kinds = [(words, kind) for kind, words in _KINDS.items()]
        self.kind = w.Dropdown(options=kinds, value=_HOLD)
        self.closed = w.Dropdown(options=[(words, key) for key, words in _closed_choices()])
        told = {"lot": "in every order", "kind": "it", "other": "which"}
        controls = {"lot": self.lot, "kind": self.kind, "other": self.other}
        label(controls, told, 8, 21)
        label({"closed": self.closed}, {"closed": "where it closes"}, 8, 28)
        self.add = w.Button(description="Add", layout=w.Layout(width="6em"))
        self.add.on_click(heard(self, lambda _: self._add()))
        self.kind.observe(heard(self, lambda _: self._set_other()), "value")
        self.lot.observe(heard(self, lambda _: self._set_other()), "value")
        self.closed.observe(heard(self, lambda _: self._close()), "value")
        self.rows = w.VBox(layout=w.Layout(width="100%"))
        self.said = w.HTML(layout=w.Layout(width="100%"))
        row = in_rows([*controls.values(), self.add])
        super().__init__([row, self.rows, self.closed, self.said], layout=w.Layout(width="100%"))
        self.render()

    def render(self) -> None:
        """Show the lots and rules of the plan as it stands."""
        with self._quiet:
            lots = list(dict.fromkeys(names_of_places(self.editor.plan)))
            _offer(self.lot, [(lot, lot) for lot in lots])
            closed = self.editor.plan.orders.closed
            self.closed.value = AS_IT_IS if closed is None else closed
        self._set_other()
        rules = list(_rules(self.editor.plan))
        self.rows.children = [self._row(words, without) for words, without in rows_of(rules)]

    def _set_other(self) -> None:
        """Offer the places, or the other lots, that go with a kind of rule."""
        kind, plan = self.kind.value, self.editor.plan
        places = names_of_places(plan)
        options: list[tuple[str, Any]]
        if kind == _HOLD:
            options = [(f"place {at}", at) for at in range(1, len(places) + 1)]
        else:
            lots = dict.fromkeys(places)
            options = [(lot, lot) for lot in lots if lot != self.lot.value]
        _offer(self.other, options)
        self.other.layout.display = "none" if kind == _LEAVE else None

    def _row(self, words: str, without: Callable[[dict[str, Any]], dict[str, Any]]) -> w.HBox:
        button = w.Button(description=f"No longer: {words}", layout=w.Layout(width="auto"))
        button.layout.max_width = "100%"
        button.on_click(heard(self, lambda _: self._put(without(_asked(self.editor.plan)))))
        return in_rows([button])

    def _add(self) -> None:
        now, kind = _asked(self.editor.plan), self.kind.value
        lot, other = self.lot.value, self.other.value
        if lot is None or (other is None and kind != _LEAVE):
            return
        if kind == _HOLD:
            self._put({kind: {**now.get(kind, {}), lot: other}})
            return
        new = lot if kind == _LEAVE else [lot, other]
        if new not in now.get(kind, []):
            self._put({kind: [*now.get(kind, []), new]})

    def _close(self) -> None:
        if not self._quiet:
            self._put({"closed": None if self.closed.value == AS_IT_IS else self.closed.value})

    def _put(self, keys: dict[str, Any]) -> None:
        """Put rules into the plan, as one step, or say why they cannot be."""
        try:
            self.editor.replace_plan(asked(self.editor.plan, **keys))
        except PlanError as error:
            self.said.value = status(f"{refused('Every order', error)}. Left as it was.")
        else:
            self.said.value = status("")
        self.render()


def _offer(chooser: w.Dropdown, options: list[tuple[str, Any]]) -> None:
    """Let a chooser offer something else; what is chosen stays chosen where it is still there."""
    if tuple(options) == tuple(chooser.options):
        return
    values, before = [value for _, value in options], chooser.value
    chooser.options = options
    chooser.value = before if before in values else next(iter(values), None)


Rule = tuple[str, Any]
"""A key of the table, and one item of it."""


def _asked(plan: Plan) -> dict[str, Any]:
    asked_now: dict[str, Any] = to_data(plan).get("orders", {})
    return asked_now


def _rules(plan: Plan) -> Iterator[Rule]:
    now = _asked(plan)
    for item in now.get(_HOLD, {}).items():
        yield _HOLD, item
    for kind in (_BESIDE, _APART, _LEAVE):
        for item in now.get(kind, []):
            yield kind, item


def rows_of(
    rules: list[Rule],
) -> Iterator[tuple[str, Callable[[dict[str, Any]], dict[str, Any]]]]:
    """Yield each rule in words, and from what is asked now the key without it."""
    for kind, item in rules:

        def without(now: dict[str, Any], kind: str = kind, item: Any = item) -> dict[str, Any]:
            if kind == _HOLD:
                return {kind: {lot: at for lot, at in now[kind].items() if lot != item[0]} or None}
            return {kind: [one for one in now[kind] if one != item] or None}

        if kind == _LEAVE:
            yield f"{item} {_KINDS[kind]}", without
        else:
            yield f"{item[0]} {_KINDS[kind]} {item[1]}", without


def _closed_choices() -> Iterator[tuple[Any, str]]:
    yield from KEYS["orders", "closed"].choices
