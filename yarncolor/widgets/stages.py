"""Sections of a page in the stages of the work: one row of buttons each, one pressed in all."""

from collections.abc import Mapping, Sequence

import ipywidgets as w
import traitlets

from yarncolor.widgets.mishaps import heard


class Stages(w.HBox):
    """Rows of buttons beside each other, each headed by its stage; `value` is what is pressed.

    Parameters
    ----------
    stages : mapping of str to sequence of str
        Sections by stage, in the order of the work; each section stands once.
    value : str
        The section that is pressed at first.
    """

    value = traitlets.Unicode()

    def __init__(self, stages: Mapping[str, Sequence[str]], value: str) -> None:
        self.options = tuple(name for names in stages.values() for name in names)
        self.rows = [_row(stage, names, value) for stage, names in stages.items()]
        super().__init__(
            self.rows, layout=w.Layout(flex_flow="row wrap", width="100%", overflow="visible")
        )
        self.add_class("yc-stages")
        self.value = value
        for row in self.rows:
            row.observe(heard(self, lambda change: self._pressed(change["new"])), "value")

    @traitlets.validate("value")
    def _is_there(self, proposal: dict[str, str]) -> str:
        if proposal["value"] not in self.options:
            raise traitlets.TraitError(f"no section is called {proposal['value']}")
        return proposal["value"]

    @traitlets.observe("value")
    def _press(self, change: dict[str, str]) -> None:
        """Press one button of all rows."""
        for row in self.rows:
            row.value = change["new"] if change["new"] in row.options else None

    def _pressed(self, name: str | None) -> None:
        if name is not None:
            self.value = name


def _row(stage: str, names: Sequence[str], value: str) -> w.ToggleButtons:
    row = w.ToggleButtons(
        options=list(names),
        value=value if value in names else None,
        description=stage,
        style={"button_width": "auto", "description_width": "auto"},
        layout=w.Layout(width="auto", max_width="100%"),
    )
    row.add_class("yc-stage")
    return row
